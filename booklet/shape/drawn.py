"""The allowance that the file itself draws: from its cutting line to its sewing line, edge by edge."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from booklet.shape.course import along, length, nearest

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.shape.course import Course, Point
    from booklet.shape.piece import ShapedEdge
    from booklet.shape.seamline import Flat

# At how many places of an edge is its allowance measured? Our choice.
PLACES = 15
# No allowance is wider, in millimetres. Our choice: a deep hem.
WIDEST = 150.0
# How far may the way to the sewing line lean from the square one, as a cosine? Our choice: 25 degrees.
SQUARE = math.cos(math.radians(25))


def drawn_allowances(
    edges: dict[str, ShapedEdge], sew: Sequence[Course], clockwise: bool
) -> dict[str, tuple[float, float]]:
    """Least and most of every edge beside which a sewing line is drawn. clockwise: how the edges run on paper."""
    lines = [line.points() for line in sew]
    if not lines:
        return {}
    found = {}
    for name, edge in edges.items():
        others = [other.cut for other in edges.values() if other is not edge]
        widths = [width for width in _widths(edge.cut, lines, others, clockwise) if width is not None]
        if len(widths) > PLACES // 2:
            found[name] = (min(widths), max(widths))
    return found


def _widths(cut: Flat, lines: list[Flat], others: list[Flat], clockwise: bool) -> list[float | None]:
    """At places along an edge, its ends left out: there the neighbours' allowances run across it."""
    whole = length(cut)
    margin = min(whole * 0.25, 30.0)
    reach = [_near(line, cut) for line in lines]
    found = []
    for place in range(PLACES):
        way = margin + (whole - 2 * margin) * place / (PLACES - 1)
        found.append(_width(cut, way, [line for line in reach if line], others, clockwise))
    return found


def _near(line: Flat, cut: Flat) -> Flat:
    """The line, or nothing where it lies too far away."""
    lows = [min(point[axis] for point in cut) - WIDEST for axis in (0, 1)]
    highs = [max(point[axis] for point in cut) + WIDEST for axis in (0, 1)]
    apart = any(
        max(point[axis] for point in line) < lows[axis] or min(point[axis] for point in line) > highs[axis]
        for axis in (0, 1)
    )
    return () if apart or len(line) < 2 else line


def _width(cut: Flat, way: float, lines: list[Flat], others: list[Flat], clockwise: bool) -> float | None:
    """At one place; None where no sewing line lies square to it, or the nearest is another edge's."""
    here = along(cut, way)
    inward = _inward(cut, way, clockwise)
    best: tuple[float, Point] | None = None
    for line in lines:
        at, off = nearest(line, here)
        if off <= WIDEST and (best is None or off < best[0]):
            best = off, along(line, at)
    if best is None:
        return None
    width, foot = best
    if width < 1e-6:
        return 0.0
    lean = ((foot[0] - here[0]) * inward[0] + (foot[1] - here[1]) * inward[1]) / width
    if lean < SQUARE or any(nearest(other, foot)[1] < width - 0.01 for other in others):
        return None
    return width


def _inward(cut: Flat, way: float, clockwise: bool) -> Point:
    """Square to the edge, to the right of who goes round clockwise on paper; of length 1."""
    back, ahead = along(cut, way - 0.5), along(cut, way + 0.5)
    across, down = ahead[0] - back[0], ahead[1] - back[1]
    size = math.hypot(across, down) or 1.0
    sign = 1 if clockwise else -1
    return -down / size * sign, across / size * sign
