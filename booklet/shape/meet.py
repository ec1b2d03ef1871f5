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


def starts_told(one: Ends, two: Ends) -> int:
    """Above 0 where the names of the neighbours say that the starts come together, below 0 where they say that a start
    comes to an end; 0 where they say nothing."""
    straight = _alike(one[0], two[0]) + _alike(one[1], two[1])
    return straight - _alike(one[0], two[1]) - _alike(one[1], two[0])


def _alike(one: str, two: str) -> int:
    one, two = same_name(one), same_name(two)
    if one == two:
        return 4 if one == "fold" else 2
    return 1 if set(one.split()) & set(two.split()) else 0
