"""Lines and curves in the plane, in millimetres: x to the right, y down, as on paper.

Curves stay curves (cubic Béziers) until they are drawn or measured; then they are flattened so finely that no point of
the curve lies further than TOLERANCE from the flat line.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable, Sequence

from booklet.record import NamedTuple

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
    return math.fsum(map(math.dist, points, points[1:]))


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
    way, off, _ = foot(points, point)
    return way, off


def foot(points: Sequence[Point], point: Point) -> tuple[float, float, Point]:
    """The same, and the place itself."""
    if len(points) < 3 * _CHUNK or not isinstance(points, tuple):
        off, at, found = _foot(points, point, 0, len(points) - 1)
        return length(points[: at + 1]) + distance(points[at], found), math.sqrt(off), found
    px, py = point
    chunks = _chunks_of(points)
    bounds = []
    for number, (left, top, right, low, _) in enumerate(chunks):
        across = left - px if px < left else px - right if px > right else 0.0
        down = top - py if py < top else py - low if py > low else 0.0
        bounds.append((across * across + down * down, number))
    bounds.sort()
    best, at, found = math.inf, 0, points[0]
    for bound, number in bounds:
        if bound > best + _SAME:
            break
        start = number * _CHUNK
        off, here, place = _foot(points, point, start, min(start + _CHUNK, len(points) - 1))
        if off < best - _SAME or (off < best + _SAME and here < at):
            best, at, found = off, here, place
    start = at // _CHUNK * _CHUNK
    way = chunks[at // _CHUNK][4] + length(points[start : at + 1]) + distance(points[at], found)
    return way, math.sqrt(best), found


# Squares of distances that differ by less are the same, in square millimetres; the earlier place is taken.
_SAME = 1e-10
# A long line is searched by boxes round so many of its stretches. Our choice, by trial.
_CHUNK = 16
_Chunk = tuple[float, float, float, float, float]
# The boxes of the lines asked for last, each line kept with them, so that its id is its own.
_known: dict[int, tuple[tuple[Point, ...], list[_Chunk]]] = {}
_MOST_KNOWN = 64


def _chunks_of(points: tuple[Point, ...]) -> list[_Chunk]:
    """Left, top, right and foot of every stretch of stretches, and how far along the line it begins."""
    known = _known.get(id(points))
    if known is not None:
        return known[1]
    chunks, gone = [], 0.0
    for start in range(0, len(points) - 1, _CHUNK):
        part = points[start : start + _CHUNK + 1]
        xs, ys = [x for x, _ in part], [y for _, y in part]
        chunks.append((min(xs), min(ys), max(xs), max(ys), gone))
        gone += length(part)
    if len(_known) >= _MOST_KNOWN:
        _known.clear()
    _known[id(points)] = points, chunks
    return chunks


def _foot(points: Sequence[Point], point: Point, first: int, last: int) -> tuple[float, int, Point]:
    """Among the stretches from the point numbered `first` to that numbered `last`: the square of the distance, the
    number of the stretch, and the place."""
    best, at, found = math.inf, first, points[first]
    px, py = point
    ax, ay = points[first]
    for number in range(first, last):
        bx, by = points[number + 1]
        dx, dy = bx - ax, by - ay
        square = dx * dx + dy * dy
        if square > 0:
            share = ((px - ax) * dx + (py - ay) * dy) / square
            share = 0.0 if share < 0 else 1.0 if share > 1 else share
            x, y = ax + dx * share, ay + dy * share
            off = (x - px) * (x - px) + (y - py) * (y - py)
            if off < best - _SAME:
                best, at, found = off, number, (x, y)
        ax, ay = bx, by
    return best, at, found


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
