"""Lines and curves in the plane, in millimetres: x to the right, y down, as on paper.

Curves stay curves (cubic Béziers) until they are drawn or measured; then they are flattened so finely that no point of
the curve lies further than TOLERANCE from the flat line.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

Point = tuple[float, float]

# How far may a flattened curve leave the true one, in millimetres? Our choice: a fifth of the thinnest cutting line.
TOLERANCE = 0.05
# And where it is to be measured? Our choice: a circle of the width of a cup then comes out a hundredth short.
FINE = 0.005


class Part(NamedTuple):
    """One part of a course, from where the one before it ends: a straight line, or a curve with its two controls."""

    end: Point
    controls: tuple[Point, Point] | None = None


class Course(NamedTuple):
    """A line through the plane, made of straight and curved parts. Closed where it ends at its start."""

    start: Point
    parts: tuple[Part, ...]

    @property
    def end(self) -> Point:
        return self.parts[-1].end if self.parts else self.start

    def reversed(self) -> Course:
        starts = [self.start, *(part.end for part in self.parts)]
        back = tuple(
            Part(start, part.controls and part.controls[::-1])
            for start, part in zip(reversed(starts[:-1]), reversed(self.parts), strict=True)
        )
        return Course(self.end, back)

    def moved(self, move: Callable[[Point], Point]) -> Course:
        """Through any motion of the plane that keeps lines straight."""
        return Course(
            move(self.start),
            tuple(
                Part(move(part.end), part.controls and (move(part.controls[0]), move(part.controls[1])))
                for part in self.parts
            ),
        )

    def points(self, tolerance: float = TOLERANCE) -> tuple[Point, ...]:
        """Flattened: its start, then points along it, its corners among them."""
        found = [self.start]
        for part in self.parts:
            if part.controls is not None:
                found += _on_curve(found[-1], *part.controls, part.end, tolerance)
            found.append(part.end)
        return tuple(found)

    def number_of_points(self, tolerance: float = TOLERANCE) -> int:
        """How many it would be flattened to."""
        starts = [self.start, *(part.end for part in self.parts)]
        return 1 + sum(
            _steps(start, *part.controls, part.end, tolerance) if part.controls else 1
            for start, part in zip(starts, self.parts, strict=False)
        )

    def all_points(self) -> tuple[Point, ...]:
        """Ends and controls, as the file has them: the course lies inside their hull."""
        return (self.start, *(point for part in self.parts for point in (*(part.controls or ()), part.end)))


def line(points: Iterable[Point]) -> Course:
    """Straight from point to point."""
    start, *rest = points
    return Course(start, tuple(Part(point) for point in rest))


def _on_curve(start: Point, one: Point, two: Point, end: Point, tolerance: float) -> list[Point]:
    """Points between the ends, at equal parameters."""
    number = _steps(start, one, two, end, tolerance)
    return [_at(start, one, two, end, step / number) for step in range(1, number)]


def _steps(start: Point, one: Point, two: Point, end: Point, tolerance: float) -> int:
    """Into how many straight steps a curve is cut, from the second differences of its controls.

    Source: Wang's bound, G. Farin, Curves and Surfaces for CAGD, 5th ed., 2002 (from memory): n >= sqrt(d(d-1)/8 *
    max|second difference| / tolerance), here with degree 3.
    """
    bend = max(
        math.hypot(start[0] - 2 * one[0] + two[0], start[1] - 2 * one[1] + two[1]),
        math.hypot(one[0] - 2 * two[0] + end[0], one[1] - 2 * two[1] + end[1]),
    )
    return max(1, math.ceil(math.sqrt(0.75 * bend / tolerance)))


def _at(start: Point, one: Point, two: Point, end: Point, share: float) -> Point:
    rest = 1 - share
    a, b, c, d = rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3
    return (
        a * start[0] + b * one[0] + c * two[0] + d * end[0],
        a * start[1] + b * one[1] + c * two[1] + d * end[1],
    )


def distance(one: Point, two: Point) -> float:
    return math.hypot(two[0] - one[0], two[1] - one[1])


def length(points: Sequence[Point]) -> float:
    """Along a flat line."""
    return math.fsum(distance(one, two) for one, two in itertools.pairwise(points))


def area(ring: Sequence[Point]) -> float:
    """Of a flat ring, positive where it runs clockwise as seen on paper (y down). Source: the shoelace formula."""
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)) / 2


def along(points: Sequence[Point], way: float) -> Point:
    """The point at a distance from the start of a flat line; its ends where the distance lies beyond them."""
    for one, two in itertools.pairwise(points):
        step = distance(one, two)
        if way <= step and step > 0:
            share = max(way, 0.0) / step
            return one[0] + (two[0] - one[0]) * share, one[1] + (two[1] - one[1]) * share
        way -= step
    return points[-1]


def nearest(points: Sequence[Point], point: Point) -> tuple[float, float]:
    """How far along a flat line the place nearest to a point lies, and how far the point is from it."""
    best, gone = (0.0, math.inf), 0.0
    for one, two in itertools.pairwise(points):
        dx, dy = two[0] - one[0], two[1] - one[1]
        step = math.hypot(dx, dy)
        if step == 0:
            continue
        share = min(1.0, max(0.0, ((point[0] - one[0]) * dx + (point[1] - one[1]) * dy) / step**2))
        off = math.hypot(one[0] + dx * share - point[0], one[1] + dy * share - point[1])
        if off < best[1] - 1e-9:
            best = (gone + share * step, off)
        gone += step
    return best


def between(points: Sequence[Point], first: float, last: float) -> tuple[Point, ...]:
    """The stretch of a flat line between two distances from its start; turned round where `last` comes before."""
    if last < first:
        return between(points, last, first)[::-1]
    found, gone = [along(points, first)], 0.0
    for one, two in itertools.pairwise(points):
        gone += distance(one, two)
        if first + 1e-6 < gone < last - 1e-6:
            found.append(two)
    return (*found, along(points, last))
