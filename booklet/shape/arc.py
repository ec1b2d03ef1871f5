"""Arcs of ellipses as cubic curves, eight to the whole round: off by less than a hundred-thousandth of the radius."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from booklet.shape.course import Course, Part

if TYPE_CHECKING:
    from booklet.shape.course import Point

_EIGHTH = math.pi / 4


def circle(centre: Point, across: float, down: float) -> Course:
    """A whole ellipse, from its right end clockwise on paper."""
    parts = arc(centre, across, down, 0.0, 0.0, 2 * math.pi)
    start = (centre[0] + across, centre[1])
    return Course(start, (*parts[:-1], Part(start, parts[-1].controls)))


def arc(centre: Point, across: float, down: float, tilt: float, first: float, sweep: float) -> list[Part]:
    """From the angle `first` on through `sweep`, clockwise on paper where it is positive; all angles in radians.

    tilt: of the ellipse's own axes. Source: the usual control length, 4/3 tan(angle/4) of the radius.
    """
    number = max(1, math.ceil(abs(sweep) / _EIGHTH - 1e-9))
    step = sweep / number
    reach = 4 / 3 * math.tan(step / 4)
    turn, lean = math.cos(tilt), math.sin(tilt)

    def at(angle: float, lead: float) -> Point:
        x = across * (math.cos(angle) - lead * math.sin(angle))
        y = down * (math.sin(angle) + lead * math.cos(angle))
        return centre[0] + turn * x - lean * y, centre[1] + lean * x + turn * y

    angles = [first + step * at for at in range(number + 1)]
    return [Part(at(angles[k + 1], 0), (at(angles[k], reach), at(angles[k + 1], -reach))) for k in range(number)]


def svg_arc(
    start: Point, across: float, down: float, tilt: float, large: bool, clockwise: bool, end: Point
) -> list[Part]:
    """The arc of an SVG path. tilt: in degrees.

    Source: SVG 1.1, appendix F.6.5 and F.6.6: from its ends to its centre; too small an ellipse is grown to reach.
    """
    if start == end:
        return []
    if across == 0 or down == 0:
        return [Part(end)]
    across, down, tilt = abs(across), abs(down), math.radians(tilt)
    turn, lean = math.cos(tilt), math.sin(tilt)
    half = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = turn * half[0] + lean * half[1], turn * half[1] - lean * half[0]
    grown = math.hypot(x / across, y / down)
    if grown > 1:
        across, down = across * grown, down * grown
    off = math.sqrt(max(0.0, 1 / ((x / across) ** 2 + (y / down) ** 2) - 1))
    off = -off if large == clockwise else off
    cx, cy = off * across * y / down, -off * down * x / across
    centre = (
        turn * cx - lean * cy + (start[0] + end[0]) / 2,
        lean * cx + turn * cy + (start[1] + end[1]) / 2,
    )
    first = math.atan2((y - cy) / down, (x - cx) / across)
    sweep = (math.atan2((-y - cy) / down, (-x - cx) / across) - first) % (2 * math.pi)
    parts = arc(centre, across, down, tilt, first, sweep if clockwise else sweep - 2 * math.pi)
    return [*parts[:-1], Part(end, parts[-1].controls)]
