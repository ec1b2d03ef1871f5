"""A piece after it was cut along a marked line."""

from __future__ import annotations

from booklet.shape.course import between, length, nearest
from booklet.shape.piece import PieceShape, shaped_edges
from booklet.shape.seamline import Flat

# How far may a marked line end from the edge that it meets, in millimetres? Our choice.
REACH = 12.0


def cut_along(shape: PieceShape, edge: str, line: str, allowance: float) -> PieceShape:
    """The piece with an edge moved to a marked line. Edges between the two that the line meets fall away.

    The piece as it was where the line is not drawn, or does not end at two edges.
    """
    marked = shape.lines.get(line)
    if marked is None or edge not in shape.edges:
        return shape
    names = list(shape.edges)
    at = names.index(edge)
    ring = [names[(at + step) % len(names)] for step in range(len(names))]
    after = _met(shape, ring[1:], marked)
    before = _met(shape, ring[:0:-1], marked)
    if after is None or before is None or (after == before and len(ring) > 2):
        return shape
    first = shape.edges[before].cut
    if nearest(first, marked[0])[1] > nearest(first, marked[-1])[1]:
        marked = marked[::-1]
    kept = ring[ring.index(after) : ring.index(before) + 1]
    cuts: dict[str, tuple[Flat, float]] = {}
    for name in names:
        old = shape.edges[name]
        if name == edge:
            cuts[name] = (marked, allowance)
        elif name == before:
            cuts[name] = ((*between(old.cut, 0.0, nearest(old.cut, marked[0])[0])[:-1], marked[0]), old.allowance)
        elif name == after:
            start = nearest(old.cut, marked[-1])[0]
            cuts[name] = ((marked[-1], *between(old.cut, start, length(old.cut))[1:]), old.allowance)
        elif name in kept:
            cuts[name] = (old.cut, old.allowance)
    edges = shaped_edges(cuts, shape.backwards)
    for name, made in edges.items():
        if name != edge:
            made.notches = tuple(
                (nearest(made.seam, notch.at)[0], notch)
                for _, notch in shape.edges[name].notches
                if nearest(made.cut, notch.at)[1] < 1.0
            )
    values = {name: getattr(shape, name) for name in PieceShape._fields}
    return PieceShape(**{**values, "edges": edges})


def _met(shape: PieceShape, names: list[str], marked: Flat) -> str | None:
    """The first of some edges, in their order, at which the line ends."""
    for name in names:
        cut = shape.edges[name].cut
        if min(nearest(cut, marked[0])[1], nearest(cut, marked[-1])[1]) <= REACH:
            return name
    return None
