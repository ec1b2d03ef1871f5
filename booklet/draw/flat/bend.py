"""A narrow piece bent along an edge, as cloth bends: a collar along a neckline, a facing along an armhole."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from booklet.shape.course import Point, distance, nearest
from booklet.shape.motion import Motion
from booklet.shape.seamline import Flat

if TYPE_CHECKING:
    from booklet.shape.piece import PieceShape

# How closely do points follow each other on a line that is bent, in millimetres of cloth? Our choice.
STEP = 12.0
# Far from the edge a small turn of it is a large one: its direction is taken over this share of the piece's depth
# before and behind, so that a line that is smooth stays so. Our choice.
STEADY = 0.8


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

    def direction(self, way: float, near: float = 4.0) -> Point:
        """A step of one along the line, at a distance from its start, as it runs so far before and behind."""
        near = min(near, self.whole / 4)
        one, two = self.at(max(way - near, 0.0)), self.at(min(way + near, self.whole))
        size = distance(one, two) or 1.0
        return (two[0] - one[0]) / size, (two[1] - one[1]) / size


# The lines asked for last, each kept with its way, so that its id is its own.
_known: dict[int, Way] = {}
_MOST_KNOWN = 256


def way_of(line: Flat) -> Way:
    """The same Way as long as the same line is asked for again."""
    known = _known.get(id(line))
    if known is None:
        if len(_known) >= _MOST_KNOWN:
            _known.clear()
        known = _known[id(line)] = Way(line)
    return known


class Bend:
    """Every point keeps its place along the piece's own edge and its distance from it. `then`: a motion of the whole.

    own, target: lines that run the same way; flipped: whether the piece is mirrored by it; deep: how far the piece
    reaches from its edge.
    """

    def __init__(
        self, own: Flat, target: Flat, flipped: bool, then: Motion | None = None, *, deep: float = 0.0
    ) -> None:
        self.flipped = flipped
        self._near = max(4.0, STEADY * deep)
        self._own, self._target = Way(own), Way(target)
        self._then = then or Motion()
        self._known: dict[Point, Point] = {}

    def __call__(self, point: Point) -> Point:
        if point not in self._known:
            self._known[point] = self._bent(point, nearest(self._own.points, point)[0])
        return self._then(self._known[point])

    def _bent(self, point: Point, way: float) -> Point:
        """way: how far along the piece's own edge the place nearest to the point lies."""
        foot, (across, down) = self._own.at(way), self._own.direction(way, self._near)
        ahead = (point[0] - foot[0]) * across + (point[1] - foot[1]) * down
        aside = (point[1] - foot[1]) * across - (point[0] - foot[0]) * down
        if self.flipped:
            aside = -aside
        way *= self._target.whole / self._own.whole
        foot, (across, down) = self._target.at(way), self._target.direction(way, self._near)
        return foot[0] + across * ahead - down * aside, foot[1] + down * ahead + across * aside

    def all(self, points: Sequence[Point]) -> Flat:
        dense = densely(points)
        new = [point for point in dict.fromkeys(dense) if point not in self._known]
        for point, (way, _) in zip(new, feet(self._own.points, new), strict=True):
            self._known[point] = self._bent(point, way)
        return self._then.all([self._known[point] for point in dense])

    def moved(self, move: Motion) -> Bend:
        found = Bend.__new__(Bend)
        found.__dict__.update(self.__dict__, _then=move.after(self._then))
        return found


def bent(shape: PieceShape, own: Flat, target: Flat, flipped: bool) -> Bend:
    """A piece's bend; where another step has bent it so, what was worked out then is known."""
    asked = ("bent", own, target, flipped)
    if asked not in shape.kept:
        shape.kept[asked] = Bend(own, target, flipped, deep=depth(own, shape.cut))
    found: Bend = shape.kept[asked]
    return found


def direction(line: Flat, way: float) -> Point:
    """A step of one along a line, at a distance from its start."""
    return way_of(line).direction(way)


def densely(points: Sequence[Point]) -> list[Point]:
    """A line with points that follow each other closely."""
    dense = [points[0]]
    for one, two in pairwise(points):
        number = max(1, math.ceil(distance(one, two) / STEP))
        dense += [
            (one[0] + (two[0] - one[0]) * at / number, one[1] + (two[1] - one[1]) * at / number)
            for at in range(1, number + 1)
        ]
    return dense


def feet(line: Flat, places: Sequence[Point]) -> list[tuple[float, float]]:
    """`nearest` for many places at once: how far along a line the point nearest to each lies, and how far away."""
    from shapely import distance as off
    from shapely import line_locate_point, linestrings, points

    if not places:
        return []
    whole, spots = linestrings(line), points(places)
    return list(zip(line_locate_point(whole, spots).tolist(), off(whole, spots).tolist(), strict=True))


def depth(line: Flat, ring: Flat) -> float:
    """How far a piece reaches from one of its edges."""
    return max(off for _, off in feet(line, ring))
