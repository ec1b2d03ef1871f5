"""A layer of cloth from the side: a path of straight runs and round turns, and the same path a little to one side.

Paper millimetres; y grows downwards. Only runs along x, half circles (folds) and quarter circles (steps) are needed,
so that a path beside another is exact.
"""

from __future__ import annotations

import math
from typing import NamedTuple

Point = tuple[float, float]


class Run(NamedTuple):
    start: Point
    end: Point


class Turn(NamedTuple):
    """An arc. `start` and `sweep` are angles in quarter turns, measured from +x towards +y (clockwise on paper)."""

    centre: Point
    radius: float
    start: float
    sweep: float

    def at(self, share: float) -> Point:
        angle = (self.start + self.sweep * share) * math.pi / 2
        return self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle)


class Path(NamedTuple):
    """A layer in the direction of travel."""

    parts: tuple[Run | Turn, ...]

    @property
    def start(self) -> Point:
        return _ends(self.parts[0])[0]

    @property
    def end(self) -> Point:
        return _ends(self.parts[-1])[1]

    def beside(self, left: float) -> Path:
        """The path `left` millimetres to the left of travel (to the right when negative)."""
        return Path(tuple(_beside(part, left) for part in self.parts))

    def mirrored(self, across: float, down: float) -> Path:
        """With x times `across` and y times `down`, each 1 or -1."""
        return Path(tuple(_mirrored(part, across, down) for part in self.parts))

    def moved(self, x: float, y: float) -> Path:
        return Path(tuple(_moved(part, x, y) for part in self.parts))

    def points(self) -> list[Point]:
        """Ends, and the outermost points of every turn: enough for the bounds."""
        found: list[Point] = []
        for part in self.parts:
            found += _ends(part)
            if isinstance(part, Turn):
                found.append(part.at(0.5))
        return found

    def walk(self, every: float) -> list[tuple[Point, Point]]:
        """A point each `every` millimetres along the path, none nearer than half of that to an end.

        With the unit direction of travel there.
        """
        found = []
        rest = sum(_length(part) for part in self.parts) - every / 2
        left_over = every / 2
        for part in self.parts:
            length = _length(part)
            place = left_over
            while place < min(length, rest + 1e-9):
                found.append(_along(part, place / length))
                place += every
            left_over = place - length
            rest -= length
        return found


class Pen:
    """Draws a path: `Pen(x, y, heading)`, heading 1 to the right or -1 to the left."""

    def __init__(self, x: float, y: float, heading: int) -> None:
        self._at: Point = (x, y)
        self._heading = heading
        self._parts: list[Run | Turn] = []

    def to(self, x: float) -> Pen:
        """Straight on to x."""
        if abs(x - self._at[0]) > 1e-9:
            self._parts.append(Run(self._at, (x, self._at[1])))
            self._at = (x, self._at[1])
        return self

    def fold(self, down: float) -> Pen:
        """Half a circle, back the way it came, `down` millimetres lower (higher when negative)."""
        x, y = self._at
        clockwise = 1 if (down > 0) == (self._heading > 0) else -1
        start = -1.0 if down > 0 else 1.0
        self._parts.append(Turn((x, y + down / 2), abs(down) / 2, start, 2.0 * clockwise))
        self._at = (x, y + down)
        self._heading = -self._heading
        return self

    def fold_at(self, x: float, down: float) -> Pen:
        """A fold whose outermost point stands at x."""
        return self.to(x - self._heading * abs(down) / 2).fold(down)

    def step(self, down: float, last: float = 0) -> Pen:
        """Two quarter circles: onwards, `down` millimetres lower. Takes as much room along x as it goes down.

        last: the least radius of the second one; a path beside it, inside the turn, needs room.
        """
        if abs(down) < 1e-9:
            return self
        x, y = self._at
        second = max(abs(down) / 2, last)
        first = abs(down) - second
        sign = 1 if down > 0 else -1
        clockwise = sign * self._heading
        self._parts.append(Turn((x, y + sign * first), first, -float(sign), float(clockwise)))
        end = 2.0 if self._heading > 0 else 0.0
        ahead = x + self._heading * abs(down)
        self._parts.append(Turn((ahead, y + sign * first), second, end, -float(clockwise)))
        self._at = (ahead, y + down)
        return self

    def path(self) -> Path:
        return Path(tuple(self._parts))


def _ends(part: Run | Turn) -> tuple[Point, Point]:
    return (part.start, part.end) if isinstance(part, Run) else (part.at(0), part.at(1))


def _length(part: Run | Turn) -> float:
    if isinstance(part, Run):
        return math.hypot(part.end[0] - part.start[0], part.end[1] - part.start[1])
    return abs(part.sweep) * math.pi / 2 * part.radius


def _along(part: Run | Turn, share: float) -> tuple[Point, Point]:
    if isinstance(part, Run):
        (x0, y0), (x1, y1) = part
        length = _length(part)
        return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share), ((x1 - x0) / length, (y1 - y0) / length)
    angle = (part.start + part.sweep * share) * math.pi / 2
    way = 1 if part.sweep > 0 else -1
    return part.at(share), (-math.sin(angle) * way, math.cos(angle) * way)


def _beside(part: Run | Turn, left: float) -> Run | Turn:
    if isinstance(part, Run):
        (x0, y0), (x1, y1) = part
        length = _length(part)
        across, down = (y1 - y0) / length * left, -(x1 - x0) / length * left
        return Run((x0 + across, y0 + down), (x1 + across, y1 + down))
    # Left of a clockwise turn is outside it. Inside, a turn can't be tighter than a point.
    radius = part.radius + left if part.sweep > 0 else part.radius - left
    return part._replace(radius=max(radius, 0.01))


def _mirrored(part: Run | Turn, across: float, down: float) -> Run | Turn:
    if isinstance(part, Run):
        return Run((part.start[0] * across, part.start[1] * down), (part.end[0] * across, part.end[1] * down))
    start, sweep = part.start, part.sweep
    if across < 0:
        start, sweep = 2.0 - start, -sweep
    if down < 0:
        start, sweep = -start, -sweep
    return Turn((part.centre[0] * across, part.centre[1] * down), part.radius, start, sweep)


def _moved(part: Run | Turn, x: float, y: float) -> Run | Turn:
    if isinstance(part, Run):
        return Run((part.start[0] + x, part.start[1] + y), (part.end[0] + x, part.end[1] + y))
    return part._replace(centre=(part.centre[0] + x, part.centre[1] + y))
