"""From cloth to paper: the scale of a figure, and the part of it that is shown."""

from __future__ import annotations

import math
from typing import Any, NamedTuple

from booklet.draw.ink import look, millimetres
from booklet.shape.course import Point
from booklet.shape.seamline import Flat

# No figure is flatter than this, its height to its width or the other way, where there is more cloth. Our choice.
STRIP = 0.55
# How much more cloth is shown round a large place of work, as a share of its size? Our choice.
ROUND = 0.18
# How far may a drawn line leave the true one, in millimetres on paper? Our choice: a fifteenth of the thinnest line.
FINE = 0.01
# Cloth that ends within so many millimetres of cloth beyond the end of the picture is shown to its edge. Our choice.
EDGE = 30.0
# How far inside and beyond the end of the picture no edge of a cloth runs along the wave. Our choice: the wave's height
# at a twelfth of life size.
WAVE = 12.0
# Room beyond a side on which all is shown, on paper.
AWAY = 2.0

Box = tuple[float, float, float, float]


class Paper(NamedTuple):
    """scale: paper to cloth; box: what is shown, in millimetres of cloth; whole: whether that is everything.

    clip: the area on paper that is shown, where that is not everything.
    """

    scale: float
    box: Box
    whole: bool
    clip: Any = None

    @property
    def width(self) -> float:
        return (self.box[2] - self.box[0]) * self.scale

    @property
    def height(self) -> float:
        return (self.box[3] - self.box[1]) * self.scale

    def __call__(self, point: Point) -> Point:
        return (point[0] - self.box[0]) * self.scale, (point[1] - self.box[1]) * self.scale

    def all(self, line: Flat) -> Flat:
        return tuple(self(point) for point in line)

    def laid(self, shape: Any) -> Any:
        """A shapely geometry on paper, with no more points than can be seen, cut off where the figure ends."""
        from shapely import simplify, transform

        scale, start = self.scale, self.box[:2]
        moved = simplify(transform(shape, lambda points: (points - start) * scale), FINE)
        return moved if self.clip is None else moved.intersection(self.clip)

    def all_laid(self, lines: list[Flat]) -> Any:
        """The same of many lines at once: an array of geometries."""
        from shapely import intersection, linestrings, simplify

        points = [self(point) for line in lines for point in line]
        numbers = [number for number, line in enumerate(lines) for _ in line]
        moved = simplify(linestrings(points, indices=numbers), FINE) if lines else []
        return moved if self.clip is None or not lines else intersection(moved, self.clip)


def paper_for(areas: list[Any], work: list[Flat], words: float, several: bool) -> Paper:
    """The whole where it is large enough to be seen, else the place of the work with some cloth round it.

    words: how much width is kept free for words beside the figure, on paper; several: whether pieces stand side by
    side, which may take both columns of the booklet where they would be too small in one.
    """
    whole = _union([area.bounds for area in areas])
    focus = _union([_bounds(line) for line in work]) if work else whole
    found = _paper(areas, whole, focus, millimetres("pieces", "width") - words, millimetres("pieces", "height"))
    if several and found.scale < millimetres("pieces", "smallest"):
        found = _paper(areas, whole, focus, millimetres("pieces", "wide") - words, millimetres("pieces", "wide_height"))
    return found


def _paper(areas: list[Any], whole: Box, focus: Box, width: float, height: float) -> Paper:
    scale = _fit(whole, width, height)
    if scale >= millimetres("pieces", "smallest"):
        return Paper(_step(scale), whole, True)
    around = millimetres("pieces", "around") + ROUND * max(focus[2] - focus[0], focus[3] - focus[1])
    box = _not_flat(
        (
            max(focus[0] - around, whole[0]),
            max(focus[1] - around, whole[1]),
            min(focus[2] + around, whole[2]),
            min(focus[3] + around, whole[3]),
        ),
        whole,
    )
    box = _past_edges(_snapped(box, whole), whole, areas)
    scale = _step(_fit(box, width, height))
    if box == whole:
        return Paper(scale, box, True)
    torn = (box[0] > whole[0], box[1] > whole[1], box[2] < whole[2], box[3] < whole[3])
    return Paper(scale, box, False, torn_off((box[2] - box[0]) * scale, (box[3] - box[1]) * scale, torn))


def _snapped(box: Box, whole: Box) -> Box:
    """To the very edge where it is near: no wave runs along a seam or a fold."""
    left, top, right, bottom = (
        edge if abs(side - edge) < EDGE else side for side, edge in zip(box, whole, strict=True)
    )
    return left, top, right, bottom


def _past_edges(box: Box, whole: Box, areas: list[Any]) -> Box:
    """Grown where an edge of some cloth ends just beyond: no wave runs along it or cuts off its outermost curve."""
    from shapely import box as rectangle

    sides = list(box)
    for side, (axis, way) in enumerate(((0, -1), (1, -1), (0, 1), (1, 1))):
        outer, inner = sides[side] + way * EDGE, sides[side] - way * WAVE
        strip = list(sides)
        strip[axis], strip[axis + 2] = min(outer, inner), max(outer, inner)
        beyond = rectangle(*strip)
        for area in areas:
            parts = [part.bounds[side] for part in _parts(area.intersection(beyond)) if not part.is_empty]
            ends = [end + way * WAVE for end in parts if abs(end - outer) > 1.0]
            sides[side] = min([sides[side], *ends]) if way < 0 else max([sides[side], *ends])
    left, top, right, bottom = sides
    return max(left, whole[0]), max(top, whole[1]), min(right, whole[2]), min(bottom, whole[3])


def _parts(shape: Any) -> list[Any]:
    return list(getattr(shape, "geoms", [shape]))


def _step(scale: float) -> float:
    """The next smaller of the scales in use, so that neighbouring figures of alike pieces are alike in size."""
    steps = [float(step) for step in look()["pieces"]["scales"]]
    return next((1 / step for step in steps if 1 / step <= scale), scale)


def torn_off(width: float, height: float, torn: tuple[bool, bool, bool, bool]) -> Any:
    """The picture's area on paper: a soft wave on the sides where the cloth goes on, and room on the others."""
    from shapely.geometry import Polygon

    x0, y0 = (0.0 if torn[0] else -AWAY), (0.0 if torn[1] else -AWAY)
    x1, y1 = (width if torn[2] else width + AWAY), (height if torn[3] else height + AWAY)
    points: list[Point] = []
    points += _side((x0, y0), (x1, y0), torn[1])
    points += _side((x1, y0), (x1, y1), torn[2])
    points += _side((x1, y1), (x0, y1), torn[3])
    points += _side((x0, y1), (x0, y0), torn[0])
    return Polygon(points)


def _side(start: Point, end: Point, torn: bool) -> list[Point]:
    """From corner to corner, the last left out; a wave to the inside where it is torn."""
    if not torn:
        return [start]
    whole = math.hypot(end[0] - start[0], end[1] - start[1])
    ux, uy = (end[0] - start[0]) / whole, (end[1] - start[1]) / whole
    high, every = millimetres("pieces", "wave"), millimetres("pieces", "wave_every")
    number = max(4, round(whole / every * 8))
    found = []
    for step in range(number):
        way = whole * step / number
        turn = 2 * math.pi * way / every
        off = (
            high * (1 + 0.62 * math.sin(turn) + 0.38 * math.sin(turn * 0.43 + 1)) * min(1.0, way / 2, (whole - way) / 2)
        )
        found.append((start[0] + ux * way - uy * off, start[1] + uy * way + ux * off))
    return found


def _not_flat(box: Box, whole: Box) -> Box:
    """With so much more cloth above and below, or at the sides, that it is no mere strip."""
    left, top, right, bottom = box
    least = STRIP * max(right - left, bottom - top)
    if bottom - top < least:
        more = (least - (bottom - top)) / 2
        top, bottom = _grown(top, bottom, more, whole[1], whole[3])
    if right - left < least:
        more = (least - (right - left)) / 2
        left, right = _grown(left, right, more, whole[0], whole[2])
    return left, top, right, bottom


def _grown(low: float, high: float, more: float, least: float, most: float) -> tuple[float, float]:
    """By `more` at both ends, or at the other where one has no more."""
    low, high = low - more, high + more
    low, high = low - max(high - most, 0.0), high + max(least - low, 0.0)
    return max(low, least), min(high, most)


def _fit(box: Box, width: float, height: float) -> float:
    return min(width / max(box[2] - box[0], 1.0), height / max(box[3] - box[1], 1.0))


def _union(boxes: list[Any]) -> Box:
    return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))


def _bounds(line: Flat) -> Box:
    return (min(p[0] for p in line), min(p[1] for p in line), max(p[0] for p in line), max(p[1] for p in line))
