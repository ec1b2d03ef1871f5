"""The seams that meet a row of edges at their corners: side seams at a waist, the shoulder seam at a neckline."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.sew.bench import Edge, Seam


class Corner(NamedTuple):
    """A seam that joins neighbours of a row's edges to one another. ends: the edges of the row that it brings together.

    One edge alone is there where the seam joins its two neighbours, or its left copy's to its right copy's.
    """

    seam: Seam
    ends: tuple[Edge, ...]


def corners(row: Sequence[Edge]) -> list[Corner]:
    """The seams at the corners of a row, in time order. One that lies in the row itself is none."""
    ends: dict[Seam, list[tuple[Edge, Edge]]] = {}
    for edge in row:
        for near in _flanks(edge):
            for seam in near.seams:
                ends.setdefault(seam, []).append((near, edge))
    found = [
        Corner(seam, tuple(dict.fromkeys(edge for _, edge in met)))
        for seam, met in ends.items()
        if _joins(seam, {near for near, _ in met}) and not any(near in row for near, _ in met)
    ]
    return sorted(found, key=lambda corner: corner.seam.act.time)


def _joins(seam: Seam, flanks: set[Edge]) -> bool:
    """Whether flanks lie on two of its sides; one alone, where it is sewn to its own other copy."""
    return sum(not flanks.isdisjoint(layer.edges) for layer in seam.layers) > 1


def _flanks(edge: Edge) -> tuple[Edge, ...]:
    """The edges at its corners, as far as can be told.

    Of a piece that is alike on both sides some list one half: top, side, bottom. There the last edge meets the first
    only in the list. It is left out where both of them are sewn to their own other copies, as side and bottom are.
    """
    near = edge.neighbours
    if len(near) != 2 or not all(_to_itself(each, set(each.seams)) for each in near):
        return near
    return tuple(each for each in near if not _over_the_end(edge, each))


def _over_the_end(edge: Edge, near: Edge) -> bool:
    """Whether two edges meet only as the last and the first in the list of their piece."""
    ring = list(edge.cut.edges.values())
    return abs(ring.index(near) - ring.index(edge)) > 1


def is_ring(row: Sequence[Edge], time: int) -> bool:
    """Whether a row was closed all round before a time: each corner that is no fold lies in such a seam.

    Where a flank is sewn to its own other copy, it may stand for both sides of a piece that lists one half.
    """
    met = {corner.seam for corner in corners(row) if corner.seam.act.time < time}
    return bool(met) and all(_closed_round(edge, row, met) for edge in row)


def _closed_round(edge: Edge, row: Sequence[Edge], met: set[Seam]) -> bool:
    flanks = [near for near in edge.neighbours if near not in row and not near.spec.fold]
    joined = [near for near in flanks if any(seam in met for seam in near.seams)]
    free = [near for near in flanks if near not in joined]
    both = any(_to_itself(near, met) for near in joined)
    return not free or (both and all(_over_the_end(edge, near) for near in free))


def _to_itself(edge: Edge, seams: set[Seam]) -> bool:
    return any(sum(edge in layer.edges for layer in seam.layers) > 1 for seam in edge.seams if seam in seams)
