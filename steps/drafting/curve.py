"""Curves for drafting: a cubic Bézier between two points and two directions, laid out in pairs of arcs."""

from __future__ import annotations

import math
from collections.abc import Callable

from steps.drafting.path import Path, Point, Stretch, ahead

# How far may the arcs leave the curve that they stand for, in millimetres? Our choice: a fine pencil line.
NEAR = 0.12


def curve(
    start: Point, heading: float, end: Point, final_heading: float, begins: float = 0.38, ends: float = 0.38
) -> Path:
    """A smooth curve. Headings in radians from x toward y; begins, ends: how strongly it keeps to them, as shares of
    the distance between its ends."""
    reach = math.dist(start, end)
    controls = (start, ahead(start, heading, begins * reach), ahead(end, final_heading, -ends * reach), end)
    return Path(tuple(_arcs(controls, 0)))


Controls = tuple[Point, Point, Point, Point]


def _arcs(controls: Controls, depth: int) -> list[Stretch]:
    pair = _biarc(controls)
    if depth > 0 and pair and (depth > 6 or _off(controls, pair) <= NEAR):
        return pair
    one, two = _halves(controls)
    return _arcs(one, depth + 1) + _arcs(two, depth + 1)


def _biarc(controls: Controls) -> list[Stretch]:
    """Two arcs that touch in the middle, with the curve's ends and end directions.

    Source: the biarc whose two tangent lengths are equal, K. Bolton, Biarc curves, Computer-Aided Design 7, 1975 (from
    memory).
    """
    start, one, two, end = controls
    u, v = _unit(start, one), _unit(two, end)
    cx, cy = end[0] - start[0], end[1] - start[1]
    sum_x, sum_y = u[0] + v[0], u[1] + v[1]
    a, b, c = 4 - sum_x**2 - sum_y**2, 2 * (cx * sum_x + cy * sum_y), -(cx**2 + cy**2)
    way = -c / b if abs(a) < 1e-9 else (-b + math.sqrt(b * b - 4 * a * c)) / (2 * a)
    corner, other = (start[0] + way * u[0], start[1] + way * u[1]), (end[0] - way * v[0], end[1] - way * v[1])
    middle = (corner[0] + other[0]) / 2, (corner[1] + other[1]) / 2
    if way <= 0 or math.dist(corner, other) < 1e-12:
        return []
    turn = math.atan2(other[1] - corner[1], other[0] - corner[0])
    return [
        Stretch(start, middle, _bulge(turn - math.atan2(u[1], u[0]))),
        Stretch(middle, end, _bulge(math.atan2(v[1], v[0]) - turn)),
    ]


def _bulge(angle: float) -> float:
    angle = (angle + math.pi) % (2 * math.pi) - math.pi
    return 0.0 if abs(angle) < 1e-7 else math.tan(angle / 4)


def _off(controls: Controls, pair: list[Stretch]) -> float:
    """How far the arcs leave the curve, at places along it."""
    offs = [_from_arc(arc) for arc in pair]
    return max(min(off(point) for off in offs) for point in (_at(controls, step / 8) for step in range(1, 8)))


def _from_arc(arc: Stretch) -> Callable[[Point], float]:
    """How far a point lies from the circle, or the line, of a stretch."""
    if arc.bulge == 0:
        across = math.cos(arc.heading), math.sin(arc.heading)
        return lambda point: abs(across[0] * (point[1] - arc.start[1]) - across[1] * (point[0] - arc.start[0]))
    radius = arc.radius
    centre = ahead(arc.start, arc.heading + math.copysign(math.pi / 2, arc.bulge), radius)
    return lambda point: abs(math.dist(point, centre) - radius)


def _at(controls: Controls, share: float) -> Point:
    rest = 1 - share
    a, b, c, d = rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = controls
    return a * ax + b * bx + c * cx + d * dx, a * ay + b * by + c * cy + d * dy


def _halves(controls: Controls) -> tuple[Controls, Controls]:
    """By de Casteljau's construction."""
    a, b, c, d = controls
    ab, bc, cd = _middle(a, b), _middle(b, c), _middle(c, d)
    abc, bcd = _middle(ab, bc), _middle(bc, cd)
    middle = _middle(abc, bcd)
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def _middle(one: Point, two: Point) -> Point:
    return (one[0] + two[0]) / 2, (one[1] + two[1]) / 2


def _unit(one: Point, two: Point) -> Point:
    reach = math.dist(one, two)
    return (two[0] - one[0]) / reach, (two[1] - one[1]) / reach


def solve(wanted: float, gives: Callable[[float], float], low: float, high: float) -> float:
    """Where `gives` comes to what is wanted, between two values that lie on either side of it.

    By false position with the weights of the Illinois rule: M. Dowell and P. Jarratt, BIT 11, 1971 (from memory).
    """
    below, above = gives(low) - wanted, gives(high) - wanted
    if below * above > 0:
        raise ValueError(f"{wanted:.2f} is not between {below + wanted:.2f} and {above + wanted:.2f}.")
    for _ in range(60):
        middle = (low * above - high * below) / (above - below)
        off = gives(middle) - wanted
        if abs(off) < 1e-6:
            break
        if off * above < 0:
            low, below = high, above
        else:
            below /= 2
        high, above = middle, off
    return middle
