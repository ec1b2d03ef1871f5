"""Which ends of two edges come together when they are sewn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.shape.piece import PieceShape

Ends = tuple[str, str]


def ends_of(shape: PieceShape, edge: str) -> Ends:
    """The names of the edges that come before and after one, as the writer goes round the piece."""
    names = list(shape.edges)
    at = names.index(edge)
    return names[at - 1], names[(at + 1) % len(names)]


def starts_meet(one: Ends, two: Ends, same_piece: bool, same_way: bool) -> bool:
    """Whether the start of the first comes to the start of the second; else to its end.

    Told by the neighbours of both: what is called alike comes together, a fold most surely. same_piece: two edges of
    one piece come together as it is folded, start to end. Where nothing tells, two pieces whose edges the writer takes
    in the same direction (`same_way`) lie so that a start comes to an end.
    """
    if same_piece:
        return False
    straight = _alike(one[0], two[0]) + _alike(one[1], two[1])
    crossed = _alike(one[0], two[1]) + _alike(one[1], two[0])
    return straight > crossed if straight != crossed else not same_way


def _alike(one: str, two: str) -> int:
    one, two = same_name(one), same_name(two)
    if one == two:
        return 4 if one == "fold" else 2
    return 1 if set(one.split()) & set(two.split()) else 0
