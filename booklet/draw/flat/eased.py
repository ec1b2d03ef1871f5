"""A piece eased onto another along an edge: moved as a whole, and brought quite onto the other near the seam."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from booklet.draw.flat.bend import STEP, Way
from booklet.shape.course import Point, distance, nearest
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

    def __call__(self, point: Point) -> Point:
        x, y = self.first(point)
        way, off = nearest(self._own.points, point)
        share = max(1.0 - off / REACH, 0.0)
        if share > 0:
            share *= share * (3 - 2 * share)
            here = self.first(self._own.at(way))
            there = self._target.at(way * self._target.whole / self._own.whole)
            x, y = x + (there[0] - here[0]) * share, y + (there[1] - here[1]) * share
        return self._then((x, y))

    def all(self, points: Sequence[Point]) -> Flat:
        return tuple(self(point) for point in densely(points))

    def moved(self, move: Motion) -> Eased:
        found = Eased.__new__(Eased)
        found.__dict__.update(self.__dict__, _then=move.after(self._then))
        return found


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
