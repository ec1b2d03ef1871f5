"""A piece eased onto another along an edge: moved as a whole, and brought quite onto the other near the seam."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.draw.flat.bend import Way, densely, feet
from booklet.shape.course import Point, nearest
from booklet.shape.motion import Motion
from booklet.shape.seamline import Flat

# How far from an edge does easing move a piece, in millimetres of cloth? Our choice.
REACH = 140.0


class Eased:
    """first: the motion of the whole; own: the piece's edge; target: where it lies; lines that run the same way.
    `then`: a motion of both."""

    def __init__(self, first: Motion, own: Flat, target: Flat, then: Motion | None = None) -> None:
        self.first = first
        self.flipped = first.flipped
        self._own, self._target = Way(own), Way(target)
        self._then = then or Motion()
        self._known: dict[Point, Point] = {}

    def __call__(self, point: Point) -> Point:
        if point not in self._known:
            self._known[point] = self._eased(point, *nearest(self._own.points, point))
        return self._then(self._known[point])

    def _eased(self, point: Point, way: float, off: float) -> Point:
        """way, off: where along the edge the place nearest to the point lies, and how far it is from it."""
        x, y = self.first(point)
        share = max(1.0 - off / REACH, 0.0)
        if share > 0:
            share *= share * (3 - 2 * share)
            here = self.first(self._own.at(way))
            there = self._target.at(way * self._target.whole / self._own.whole)
            x, y = x + (there[0] - here[0]) * share, y + (there[1] - here[1]) * share
        return x, y

    def all(self, points: Sequence[Point]) -> Flat:
        dense = densely(points)
        new = [point for point in dict.fromkeys(dense) if point not in self._known]
        for point, (way, off) in zip(new, feet(self._own.points, new), strict=True):
            self._known[point] = self._eased(point, way, off)
        return self._then.all([self._known[point] for point in dense])

    def moved(self, move: Motion) -> Eased:
        found = Eased.__new__(Eased)
        found.__dict__.update(self.__dict__, _then=move.after(self._then))
        return found
