"""The allowance that the file itself draws: from its cutting line to its sewing line, edge by edge."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from booklet.shape.course import Point, along, foot, length, nearest
from booklet.shape.seamline import Flat

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.shape.course import Course
    from booklet.shape.piece import ShapedEdge

Box = tuple[float, float, float, float]
Places = list[tuple[Box, Flat]]

# At how many places of an edge is its allowance measured? Our choice.
PLACES = 9
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
    boxes = [(box_of(edge.cut), edge) for edge in edges.values()]
    found = {}
    for box, edge in boxes:
        others = [(other_box, other.cut) for other_box, other in boxes if other is not edge]
        # Mostly it lies about where the source says; only where it does not, wherever it may.
        for reach in (1.2 * edge.allowance + 3.0, WIDEST):
            near = [stretch for line in lines for stretch in _within(line, box, reach)]
            widths = [width for width in _widths(edge.cut, near, others, clockwise) if width is not None]
            if len(widths) > PLACES // 2 and max(widths) <= reach:
                found[edge.name] = (min(widths), max(widths))
                break
    return found


def _within(line: Flat, box: Box, reach: float) -> list[Flat]:
    """The stretches of a line that lie no further than that from a box."""
    found: list[list[Point]] = [[]]
    for one, two in itertools.pairwise(line):
        if _apart(box_of((one, two)), box) > reach:
            found.append([])
        elif found[-1]:
            found[-1].append(two)
        else:
            found[-1] += [one, two]
    return [tuple(stretch) for stretch in found if stretch]


def _widths(cut: Flat, lines: list[Flat], others: Places, clockwise: bool) -> list[float | None]:
    """At places along an edge, its ends left out: there the neighbours' allowances run across it."""
    whole = length(cut)
    margin = min(whole * 0.25, 30.0)
    ways = (margin + (whole - 2 * margin) * place / (PLACES - 1) for place in range(PLACES))
    return [_width(cut, way, lines, others, clockwise) for way in ways]


def _width(cut: Flat, way: float, lines: list[Flat], others: Places, clockwise: bool) -> float | None:
    """At one place; None where no sewing line lies square to it, or the nearest is another edge's."""
    here = along(cut, way)
    best: tuple[float, Point] | None = None
    for line in lines:
        _, off, place = foot(line, here)
        if off <= WIDEST and (best is None or off < best[0]):
            best = off, place
    if best is None:
        return None
    width, place = best
    if width < 1e-6:
        return 0.0
    inward = _inward(cut, way, clockwise)
    lean = ((place[0] - here[0]) * inward[0] + (place[1] - here[1]) * inward[1]) / width
    if lean < SQUARE:
        return None
    spot = box_of((place,))
    if any(_apart(spot, box) < width and nearest(other, place)[1] < width - 0.01 for box, other in others):
        return None
    return width


def _inward(cut: Flat, way: float, clockwise: bool) -> Point:
    """Square to the edge, to the right of who goes round clockwise on paper; of length 1."""
    back, ahead = along(cut, way - 0.5), along(cut, way + 0.5)
    across, down = ahead[0] - back[0], ahead[1] - back[1]
    size = math.hypot(across, down) or 1.0
    sign = 1 if clockwise else -1
    return -down / size * sign, across / size * sign


def box_of(points: Sequence[Point]) -> Box:
    """Left, top, right, foot."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _apart(one: Box, two: Box) -> float:
    """How far two boxes lie from each other, the longer of across and down; 0 where they meet."""
    return max(0.0, two[0] - one[2], one[0] - two[2], two[1] - one[3], one[1] - two[3])
