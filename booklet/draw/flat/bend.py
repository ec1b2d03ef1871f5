"""A narrow piece bent along an edge, as cloth bends: a collar along a neckline, a facing along an armhole."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from booklet.shape.course import Point, along, distance, length, nearest
from booklet.shape.motion import Motion
from booklet.shape.seamline import Flat

# How closely do points follow each other on a line that is bent, in millimetres of cloth? Our choice.
STEP = 12.0


class Bend(NamedTuple):
    """Every point keeps its place along the piece's own edge and its distance from it. `then`: a motion of the whole.

    own, target: lines that run the same way; flipped: whether the piece is mirrored by it.
    """

    own: Flat
    target: Flat
    flipped: bool
    then: Motion = Motion()

    def __call__(self, point: Point) -> Point:
        way, _ = nearest(self.own, point)
        foot, (across, down) = along(self.own, way), direction(self.own, way)
        ahead = (point[0] - foot[0]) * across + (point[1] - foot[1]) * down
        aside = (point[1] - foot[1]) * across - (point[0] - foot[0]) * down
        if self.flipped:
            aside = -aside
        way *= length(self.target) / length(self.own)
        foot, (across, down) = along(self.target, way), direction(self.target, way)
        return self.then((foot[0] + across * ahead - down * aside, foot[1] + down * ahead + across * aside))

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
        return self._replace(then=move.after(self.then))


def direction(line: Flat, way: float) -> Point:
    """A step of one along a line, at a distance from its start."""
    whole = length(line)
    near = min(4.0, whole / 4)
    one, two = along(line, max(way - near, 0.0)), along(line, min(way + near, whole))
    size = distance(one, two) or 1.0
    return (two[0] - one[0]) / size, (two[1] - one[1]) / size


def depth(line: Flat, ring: Flat) -> float:
    """How far a piece reaches from one of its edges."""
    return max(nearest(line, point)[1] for point in ring)
