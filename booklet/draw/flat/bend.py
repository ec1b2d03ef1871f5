"""A narrow piece bent along an edge, as cloth bends: a collar along a neckline, a facing along an armhole."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, pairwise

from booklet.shape.course import Point, distance, nearest
from booklet.shape.motion import Motion
from booklet.shape.seamline import Flat

# How closely do points follow each other on a line that is bent, in millimetres of cloth? Our choice.
STEP = 12.0


class Way:
    """A line with the distances of its points from its start, so that places on it are found quickly."""

    def __init__(self, points: Flat) -> None:
        self.points = points
        self.gone = [0.0, *accumulate(distance(one, two) for one, two in pairwise(points))]
        self.whole = self.gone[-1]

    def at(self, way: float) -> Point:
        """The point at a distance from the start; the ends where it lies beyond them."""
        if way <= 0:
            return self.points[0]
        number = bisect_left(self.gone, way)
        if number >= len(self.points):
            return self.points[-1]
        (x0, y0), (x1, y1) = self.points[number - 1], self.points[number]
        share = (way - self.gone[number - 1]) / (self.gone[number] - self.gone[number - 1])
        return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share

    def direction(self, way: float) -> Point:
        """A step of one along the line, at a distance from its start."""
        near = min(4.0, self.whole / 4)
        one, two = self.at(max(way - near, 0.0)), self.at(min(way + near, self.whole))
        size = distance(one, two) or 1.0
        return (two[0] - one[0]) / size, (two[1] - one[1]) / size


class Bend:
    """Every point keeps its place along the piece's own edge and its distance from it. `then`: a motion of the whole.

    own, target: lines that run the same way; flipped: whether the piece is mirrored by it.
    """

    def __init__(self, own: Flat, target: Flat, flipped: bool, then: Motion | None = None) -> None:
        self.flipped = flipped
        self._own, self._target = Way(own), Way(target)
        self._then = then or Motion()
        self._known: dict[Point, Point] = {}

    def __call__(self, point: Point) -> Point:
        if point not in self._known:
            self._known[point] = self._bent(point)
        return self._then(self._known[point])

    def _bent(self, point: Point) -> Point:
        way, _ = nearest(self._own.points, point)
        foot, (across, down) = self._own.at(way), self._own.direction(way)
        ahead = (point[0] - foot[0]) * across + (point[1] - foot[1]) * down
        aside = (point[1] - foot[1]) * across - (point[0] - foot[0]) * down
        if self.flipped:
            aside = -aside
        way *= self._target.whole / self._own.whole
        foot, (across, down) = self._target.at(way), self._target.direction(way)
        return foot[0] + across * ahead - down * aside, foot[1] + down * ahead + across * aside

    def all(self, points: Sequence[Point]) -> Flat:
        dense = [points[0]]
        for one, two in pairwise(points):
            number = max(1, math.ceil(distance(one, two) / STEP))
            dense += [
                (one[0] + (two[0] - one[0]) * at / number, one[1] + (two[1] - one[1]) * at / number)
                for at in range(1, number + 1)
            ]
        return tuple(self(point) for point in dense)

    def moved(self, move: Motion) -> Bend:
        found = Bend.__new__(Bend)
        found.__dict__.update(self.__dict__, _then=move.after(self._then))
        return found


def direction(line: Flat, way: float) -> Point:
    """A step of one along a line, at a distance from its start."""
    return Way(line).direction(way)


def depth(line: Flat, ring: Flat) -> float:
    """How far a piece reaches from one of its edges."""
    return max(nearest(line, point)[1] for point in ring)
