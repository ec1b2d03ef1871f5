"""Lines inside a piece: each edge moved inward by a width of its own."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.shape.piece import PieceShape
from booklet.shape.seamline import Flat, seam_lines


def inset(shape: PieceShape, widths: Mapping[str, float]) -> dict[str, Flat]:
    """Every edge moved inward by its width, in millimetres (0 where it has none), in the writer's direction.

    Neighbours meet where their lines cross, so that a row of stitching runs from edge to edge.
    """
    asked = ("inset", *(widths.get(name, 0.0) for name in shape.edges))
    if asked not in shape.kept:
        shape.kept[asked] = _inset(shape, widths)
    found: dict[str, Flat] = shape.kept[asked]
    return found


def _inset(shape: PieceShape, widths: Mapping[str, float]) -> dict[str, Flat]:
    names = list(shape.edges)
    if shape.backwards:
        names.reverse()
    cuts = [shape.edges[name].cut[::-1] if shape.backwards else shape.edges[name].cut for name in names]
    moved = dict(zip(names, seam_lines(cuts, [widths.get(name, 0.0) for name in names]), strict=True))
    return {name: moved[name][::-1] if shape.backwards else moved[name] for name in shape.edges}


def ring_of(lines: Mapping[str, Flat], backwards: bool) -> Flat:
    """The lines of all edges as one closed ring, clockwise on paper."""
    points = [point for line in lines.values() for point in line]
    ring = [point for at, point in enumerate(points) if at == 0 or point != points[at - 1]]
    if ring[0] != ring[-1]:
        ring.append(ring[0])
    return tuple(reversed(ring)) if backwards else tuple(ring)
