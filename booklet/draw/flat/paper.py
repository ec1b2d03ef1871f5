"""From cloth to paper: the scale of a figure, and the part of it that is shown."""

from __future__ import annotations

from typing import Any, NamedTuple

from booklet.draw.ink import millimetres
from booklet.shape.course import Point
from booklet.shape.seamline import Flat

# No figure is flatter than this, its height to its width or the other way, where there is more cloth. Our choice.
STRIP = 0.55
# How much more cloth is shown round a large place of work, as a share of its size? Our choice.
ROUND = 0.18

Box = tuple[float, float, float, float]


class Paper(NamedTuple):
    """scale: paper to cloth; box: what is shown, in millimetres of cloth; whole: whether that is everything."""

    scale: float
    box: Box
    whole: bool

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


def paper_for(areas: list[Any], work: list[Flat], words: float) -> Paper:
    """The whole where it is large enough to be seen, else the place of the work with some cloth round it.

    words: how wide the longest measure beside the figure is, on paper.
    """
    whole = _union([area.bounds for area in areas])
    scale = _fit(whole, words)
    focus = _union([_bounds(line) for line in work]) if work else whole
    if scale >= millimetres("pieces", "smallest"):
        return Paper(min(scale, millimetres("pieces", "largest")), whole, True)
    around = millimetres("pieces", "around") + ROUND * max(focus[2] - focus[0], focus[3] - focus[1])
    box = (
        max(focus[0] - around, whole[0]),
        max(focus[1] - around, whole[1]),
        min(focus[2] + around, whole[2]),
        min(focus[3] + around, whole[3]),
    )
    box = _not_flat(box, whole)
    return Paper(min(_fit(box, words), millimetres("pieces", "largest")), box, box == whole)


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


def _fit(box: Box, words: float) -> float:
    width, height = millimetres("pieces", "width") - words, millimetres("pieces", "height")
    return min(width / max(box[2] - box[0], 1.0), height / max(box[3] - box[1], 1.0))


def _union(boxes: list[Any]) -> Box:
    return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))


def _bounds(line: Flat) -> Box:
    return (min(p[0] for p in line), min(p[1] for p in line), max(p[0] for p in line), max(p[1] for p in line))
