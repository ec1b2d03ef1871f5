"""A path of straight and round stretches. Round ones are arcs of circles, so that a parallel path is exact."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from typing import NamedTuple

Point = tuple[float, float]

# Two places nearer than this are one, in millimetres.
SAME = 1e-7


class Stretch(NamedTuple):
    """From start to end; bulge: the tangent of a quarter of the angle that it turns through, positive clockwise on
    paper, 0 where it is straight."""

    start: Point
    end: Point
    bulge: float = 0.0

    @property
    def chord(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def angle(self) -> float:
        return 4 * math.atan(self.bulge)

    @property
    def radius(self) -> float:
        return self.chord * (1 + self.bulge**2) / (4 * abs(self.bulge))

    @property
    def length(self) -> float:
        return self.chord if self.bulge == 0 else abs(self.angle) * self.radius

    @property
    def heading(self) -> float:
        """The direction at the start, in radians from x toward y."""
        return math.atan2(self.end[1] - self.start[1], self.end[0] - self.start[0]) - self.angle / 2

    @property
    def final_heading(self) -> float:
        return self.heading + self.angle

    def at(self, way: float) -> Point:
        """The point at a distance from the start."""
        if self.bulge == 0:
            return ahead(self.start, self.heading, way)
        turned = way / self.radius * math.copysign(1, self.bulge)
        return ahead(self.start, self.heading + turned / 2, 2 * self.radius * math.sin(abs(turned) / 2))

    def split(self, way: float) -> tuple[Stretch, Stretch]:
        middle, share = self.at(way), way / self.length
        bulges = math.tan(self.angle * share / 4), math.tan(self.angle * (1 - share) / 4)
        return Stretch(self.start, middle, bulges[0]), Stretch(middle, self.end, bulges[1])

    def beside(self, off: float) -> Stretch:
        """The parallel stretch, `off` to the left of travel; to the right where it is negative."""
        if self.bulge and self.radius + off * math.copysign(1, self.bulge) <= 0:
            raise ValueError(f"An arc of {self.radius:.1f} mm is too tight for a parallel at {off:.1f} mm.")
        left = -math.pi / 2
        return Stretch(
            ahead(self.start, self.heading + left, off), ahead(self.end, self.final_heading + left, off), self.bulge
        )


def ahead(point: Point, heading: float, way: float) -> Point:
    return point[0] + math.cos(heading) * way, point[1] + math.sin(heading) * way


def meeting(one: Point, heading: float, two: Point, other: float) -> Point:
    """Where two endless lines cross, each through a point in a direction."""
    cross = math.sin(other - heading)
    dx, dy = two[0] - one[0], two[1] - one[1]
    return ahead(one, heading, (dx * math.sin(other) - dy * math.cos(other)) / cross)


class Path(NamedTuple):
    """Stretches, each beginning where the one before it ends."""

    stretches: tuple[Stretch, ...]

    @property
    def start(self) -> Point:
        return self.stretches[0].start

    @property
    def end(self) -> Point:
        return self.stretches[-1].end

    @property
    def heading(self) -> float:
        return self.stretches[0].heading

    @property
    def final_heading(self) -> float:
        return self.stretches[-1].final_heading

    @property
    def length(self) -> float:
        return math.fsum(stretch.length for stretch in self.stretches)

    def __add__(self, other: object) -> Path:
        if not isinstance(other, Path) or math.dist(self.end, other.start) > 1e-3:
            raise ValueError("The second path does not begin where the first ends.")
        return Path(self.stretches + other.stretches)

    def reversed(self) -> Path:
        return Path(tuple(Stretch(s.end, s.start, -s.bulge) for s in reversed(self.stretches)))

    def moved(self, move: Callable[[Point], Point], mirrored: bool = False) -> Path:
        """Through a rigid motion; mirrored: it turns right into left."""
        sign = -1 if mirrored else 1
        return Path(tuple(Stretch(move(s.start), move(s.end), sign * s.bulge) for s in self.stretches))

    def at(self, way: float) -> Point:
        return self._place(way)[0]

    def heading_at(self, way: float) -> float:
        return self._place(way)[1]

    def _place(self, way: float) -> tuple[Point, float]:
        for stretch in self.stretches:
            if way <= stretch.length:
                share = max(way, 0.0) / stretch.length
                return stretch.at(max(way, 0.0)), stretch.heading + stretch.angle * share
            way -= stretch.length
        return self.end, self.final_heading

    def between(self, first: float, last: float) -> Path:
        """The part between two distances from the start."""
        found, gone = [], 0.0
        for stretch in self.stretches:
            begin, stop = max(first - gone, 0.0), min(last - gone, stretch.length)
            gone += stretch.length
            if stop - begin <= SAME:
                continue
            part = stretch if stretch.length - stop <= SAME else stretch.split(stop)[0]
            found.append(part if begin <= SAME else part.split(begin)[1])
        return Path(tuple(found))

    def points(self, most: float = 2.0) -> list[Point]:
        """Flat: points no further apart than `most`, the ends of every stretch among them."""
        found = [self.start]
        for stretch in self.stretches:
            number = max(1, math.ceil(stretch.length / most)) if stretch.bulge else 1
            found += [stretch.at(stretch.length * step / number) for step in range(1, number)]
            found.append(stretch.end)
        return found


def straight(*points: Point) -> Path:
    return Path(tuple(Stretch(a, b) for a, b in itertools.pairwise(points)))


def beside(path: Path, off: float) -> Path:
    """The parallel path, `off` to the left of travel, its corners mitred."""
    return Path(joined([stretch.beside(off) for stretch in path.stretches]))


def joined(stretches: Sequence[Stretch]) -> tuple[Stretch, ...]:
    """Neighbours that no longer touch are drawn out, or cut back, to where they meet."""
    found = [stretches[0]]
    for stretch in stretches[1:]:
        before, after = joint(found[-1], stretch)
        found[-1:] = before
        found += after
    return tuple(found)


def joint(one: Stretch, two: Stretch) -> tuple[list[Stretch], list[Stretch]]:
    """Both stretches with what they need to meet at a corner: each an arc and a straight end, or a straight line that
    is longer or shorter than before."""
    if math.dist(one.end, two.start) < 1e-6:
        return [one], [Stretch(one.end, two.end, two.bulge)]
    if abs(math.sin(two.heading - one.final_heading)) < 1e-9:
        return [one], [Stretch(one.end, two.start), two]
    corner = meeting(one.end, one.final_heading, two.start, two.heading)
    before = _to_corner(one, corner)
    after = [Stretch(s.end, s.start, -s.bulge) for s in reversed(_to_corner(_back(two), corner))]
    return before, after


def _back(stretch: Stretch) -> Stretch:
    return Stretch(stretch.end, stretch.start, -stretch.bulge)


def _to_corner(stretch: Stretch, corner: Point) -> list[Stretch]:
    if math.dist(stretch.end, corner) < 1e-6:
        return [stretch]
    if stretch.bulge == 0:
        return [Stretch(stretch.start, corner)]
    way = math.cos(stretch.final_heading) * (corner[0] - stretch.end[0]) + math.sin(stretch.final_heading) * (
        corner[1] - stretch.end[1]
    )
    if way < 0:
        raise ValueError("A round stretch would have to be cut back at a corner.")
    return [stretch, Stretch(stretch.end, corner)]
