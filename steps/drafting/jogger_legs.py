"""Front and back of the joggers, each a whole leg: side to the right, crotch to the left."""

from __future__ import annotations

import math
from typing import NamedTuple

from steps.drafting.curve import curve, solve
from steps.drafting.path import Path, Point, ahead, beside, meeting, straight
from steps.drafting.piece import Drafted, Edge, Mark
from steps.drafting.tables import Measures

DOWN = math.pi / 2
SEAM, CASING, HEM = 10.0, 40.0, 10.0  # allowances
HIP = 0.36  # the hip lies this share of the rise above the crotch


class Shape(NamedTuple):
    """How front and back differ, in millimetres and radians.

    wider: than a quarter of the hip, of the waist, of the leg edge; slant: of the centre line above the hip, toward the
    side; outward: how far the leg edge lies toward the side.
    """

    name: str
    hip: float
    waist: float
    leg: float
    slant: float
    outward: float


FRONT = Shape("front", -10.0, -5.0, -8.0, math.radians(2.5), 0.0)
BACK = Shape("back", 10.0, 5.0, 8.0, math.radians(9), 6.0)


class Half(NamedTuple):
    """The seam lines of front or back, clockwise. The origin is on the front's crotch level, under the hip's centre."""

    waist: Path
    side: Path
    leg: Path
    inseam: Path
    crotch: Path


class Legs:
    """Both in one size."""

    def __init__(self, measures: Measures, size: str) -> None:
        self.size = size
        self._measures = measures
        cuff = self.of("cuff height")
        self.side_length = self.of("Side, from waist to cuff edge") - cuff
        self.inseam_length = self.of("finished lengths, long: Inside leg") - cuff
        self.hip_level = -HIP * (self.side_length - self.inseam_length)
        fork, left = self._fork_and_left(FRONT)
        reach = self.inseam_length
        self.bottom = solve(reach, lambda low: _inseam((left, low), (-fork, 0.0)).length, reach * 0.8, reach + 1)
        self.halves = {shape.name: self._half(shape) for shape in (FRONT, BACK)}

    def of(self, row: str) -> float:
        return self._measures.of(row, self.size)

    def _leg(self, shape: Shape) -> float:
        return self.of("Round the cuff, at rest") * self.of("leg edge, share of the cuff") / 2 + shape.leg

    def _hip(self, shape: Shape) -> float:
        return self.of("Hip") / 4 + shape.hip

    def _fork_and_left(self, shape: Shape) -> tuple[float, float]:
        """How far the crotch point lies beyond the centre, and where the leg edge ends on the inside."""
        fork = self.of(f"{shape.name} fork")
        return fork, (self._hip(shape) - fork - self._leg(shape)) / 2 + shape.outward

    def _half(self, shape: Shape) -> Half:
        (fork, left), hip = self._fork_and_left(shape), self._hip(shape)
        inner, outer = (left, self.bottom), (left + self._leg(shape), self.bottom)
        # The back's crotch point lies lower than the front's, so that its slanting inseam is no longer.
        low = solve(self.inseam_length, lambda low: _inseam(inner, (-fork, low)).length, -40.0, 60.0)
        inseam = _inseam(inner, (-fork, low))
        below = curve((hip, self.hip_level), DOWN, outer, DOWN, 0.34, 0.46)

        def top(high: float) -> tuple[Path, Path]:
            """Waist and upper side, where the centre line is `high` long above the hip."""
            centre = ahead((0.0, self.hip_level), shape.slant - DOWN, high)
            wanted = self.of("Waist, stretched flat") / 4 + shape.waist
            across = solve(
                wanted, lambda across: self._waist(shape, centre, across).length, wanted * 0.9, wanted * 1.02
            )
            waist = self._waist(shape, centre, across)
            return waist, curve(waist.end, waist.final_heading + DOWN, below.start, DOWN, 0.35, 0.35)

        wanted = self.side_length - below.length
        waist, above = top(solve(wanted, lambda high: top(high)[1].length, wanted * 0.8, wanted * 1.4))
        turn = (0.0, self.hip_level)
        crotch = curve((-fork, low), inseam.final_heading + DOWN, turn, shape.slant - DOWN, 0.5, 0.46)
        return Half(waist, above + below, straight(outer, inner), inseam, crotch + straight(turn, waist.start))

    def _waist(self, shape: Shape, centre: Point, across: float) -> Path:
        """From the centre, square to it and to the side, which curves out to the hip."""
        end = (centre[0] + across, centre[1])
        lean = 0.0
        for _ in range(6):
            lean = -2 * math.atan2(self._hip(shape) - end[0], self.hip_level - end[1])
            end = (end[0], centre[1] + across * math.tan((shape.slant + lean) / 2))
        return curve(centre, shape.slant, end, lean)

    def drafted(self, name: str) -> Drafted:
        half, of = self.halves[name], self.of
        begin = of("side above pocket")
        stop = begin + of("pocket opening")
        side, inseam = half.side, half.inseam
        lower = side.between(stop, side.length)
        return Drafted(
            name,
            self.size,
            "2",
            (
                Edge("waist", half.waist, CASING, folded=True),
                Edge("upper side", side.between(0.0, begin), SEAM),
                Edge("pocket opening", side.between(begin, stop), SEAM, smooth=True),
                Edge("lower side", lower, SEAM, smooth=True),
                Edge("leg", half.leg, SEAM),
                Edge("inseam", inseam, SEAM),
                Edge("crotch", half.crotch, SEAM),
            ),
            (
                Mark("pocket opening", 0.0),
                Mark("lower side", 0.0),
                Mark("lower side", lower.length * 0.55),
                Mark("inseam", -inseam.length * 0.3, double=True),
                Mark("crotch", half.crotch.length * 0.45, double=name == "back"),
            ),
            (self._shorts_line(half), self._across_knee(half)),
            self._dots(name, half),
            ((half.leg.at(half.leg.length / 2)[0], self.bottom * 0.8), (half.leg.at(half.leg.length / 2)[0], 0.0)),
        )

    def _shorts_line(self, half: Half) -> Path:
        """Where the shorts are cut: a hem below their finished edge."""
        side = self.of("Side, from waist to hem")
        inner = half.inseam.length - (side - (half.side.length - half.inseam.length))
        hem = beside(straight(half.side.at(side), half.inseam.at(inner)), HEM)
        return _to_cut(half, hem.start, hem.end)

    def _across_knee(self, half: Half) -> Path:
        """Level, half-way down the leg; from cutting line to cutting line."""
        way = half.inseam.length * 0.45
        level = half.inseam.at(way)[1]
        reach = _at_level(half.side, level)
        return _to_cut(half, half.side.at(reach), half.inseam.at(way))

    def _dots(self, name: str, half: Half) -> tuple[Point, ...]:
        """The places of the patches: middle of the waist patch and of the knee patch; upper corners of the pocket."""
        if name == "front":
            centre = half.waist.start
            knee = self.bottom * 0.5
            middle = (
                half.side.at(half.side.length - (self.bottom - knee))[0] + half.inseam.at(self.bottom - knee)[0]
            ) / 2
            return (centre[0] + 42, centre[1] + 12), (middle, knee)
        wide = self.of("back pocket")
        middle = self._hip(BACK) * 0.52
        return (middle - wide / 2, self.hip_level - 35), (middle + wide / 2, self.hip_level - 35)


def _to_cut(half: Half, right: Point, left: Point) -> Path:
    """A line across the leg, drawn out from the seam lines to the cutting lines."""
    heading = math.atan2(left[1] - right[1], left[0] - right[0])
    ends = []
    for edge, place in ((half.side, right), (half.inseam, left)):
        way = _at_level(edge, place[1])
        turn = edge.heading_at(way)
        ends.append(meeting(place, heading, ahead(edge.at(way), turn - DOWN, SEAM), turn))
    return straight(*ends)


def _at_level(edge: Path, level: float) -> float:
    """How far along it a side or inseam comes to a level."""
    return solve(level, lambda way: edge.at(way)[1], 0.0, edge.length)


def _inseam(bottom: Point, top: Point) -> Path:
    """From the leg edge, plumb, up to the crotch point, where it leans toward the centre."""
    lean = math.atan2(bottom[0] - top[0], bottom[1] - top[1])
    return curve(bottom, -DOWN, top, -DOWN - 1.5 * lean, 0.4, 0.3)
