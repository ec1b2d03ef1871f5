"""Rigid motions: how one piece is laid on another. Nothing is stretched."""

from __future__ import annotations

import math
from collections.abc import Sequence

from booklet.record import NamedTuple
from booklet.shape.course import Point


class Motion(NamedTuple):
    """Turned by an angle (cosine, sine) after being mirrored left to right where `flipped`, then moved by (x, y)."""

    cosine: float = 1.0
    sine: float = 0.0
    x: float = 0.0
    y: float = 0.0
    flipped: bool = False

    def __call__(self, point: Point) -> Point:
        across, down = (-point[0] if self.flipped else point[0]), point[1]
        return (
            self.cosine * across - self.sine * down + self.x,
            self.sine * across + self.cosine * down + self.y,
        )

    def all(self, points: Sequence[Point]) -> tuple[Point, ...]:
        """As each by itself, in a third of the time."""
        cosine, sine, x, y, flipped = self
        if flipped:
            return tuple([(cosine * -px - sine * py + x, sine * -px + cosine * py + y) for px, py in points])
        return tuple([(cosine * px - sine * py + x, sine * px + cosine * py + y) for px, py in points])

    def after(self, first: Motion) -> Motion:
        """`first`, then this."""
        sign = -1 if self.flipped else 1
        cosine = self.cosine * first.cosine - sign * self.sine * first.sine
        sine = self.sine * first.cosine + sign * self.cosine * first.sine
        x, y = self((first.x, first.y))
        return Motion(cosine, sine, x, y, self.flipped != first.flipped)


def turned(angle: float) -> Motion:
    """About the origin, in radians; clockwise on paper."""
    return Motion(math.cos(angle), math.sin(angle))


def onto(points: Sequence[Point], targets: Sequence[Point], flipped: bool) -> Motion:
    """The motion that brings points nearest to their targets, one to one, by least squares.

    Source: the orthogonal Procrustes problem, P. Schönemann, A generalized solution of the orthogonal Procrustes
    problem, Psychometrika 31, 1966; in the plane it has this closed form.
    """
    number = len(points)
    from_x, from_y = (math.fsum(point[axis] for point in points) / number for axis in (0, 1))
    to_x, to_y = (math.fsum(point[axis] for point in targets) / number for axis in (0, 1))
    sign = -1 if flipped else 1
    along = across = 0.0
    for point, target in zip(points, targets, strict=True):
        px, py = sign * (point[0] - from_x), point[1] - from_y
        tx, ty = target[0] - to_x, target[1] - to_y
        along += px * tx + py * ty
        across += px * ty - py * tx
    size = math.hypot(along, across)
    cosine, sine = (along / size, across / size) if size > 0 else (1.0, 0.0)
    x, y = Motion(cosine, sine, flipped=flipped)((from_x, from_y))
    return Motion(cosine, sine, to_x - x, to_y - y, flipped)
