"""The seam line of a piece: its cutting line moved inward by the allowance of each edge."""

from __future__ import annotations

import bisect
import itertools
import math
from collections.abc import Sequence

from booklet.shape.course import Point, distance

Flat = tuple[Point, ...]

# How far may two neighbouring seam lines run on past their corner to meet, as a multiple of the wider allowance? Our
# choice: at sharper corners than this a point would be cut off by hand.
LONGEST_MITRE = 6.0
# How long may a loop be that a parallel to a tight inner curve makes, as a multiple of the allowance? Our choice: more
# than the circle round it.
LONGEST_LOOP = 8.0
# Neighbours that bend less than this at their corner, in radians, run on into each other. Our choice: about 3 degrees.
STRAIGHT_ON = 0.05


def seam_lines(edges: Sequence[Flat], allowances: Sequence[float]) -> list[Flat]:
    """One flat line an edge, as given round the piece clockwise on paper; neighbours meet where their lines cross.

    edges: flat lines, each ending where the next begins; allowances: in millimetres, to the right of travel (inward).
    """
    moved = [beside(points, width) for points, width in zip(edges, allowances, strict=True)]
    number = len(edges)
    joints = [
        _joint(moved[at], moved[(at + 1) % number], max(allowances[at], allowances[(at + 1) % number]), edges[at][-1])
        for at in range(number)
    ]
    return [_between(moved[at], joints[at - 1][1], joints[at][0]) for at in range(number)]


def beside(points: Flat, off: float) -> Flat:
    """The parallel line to the right of travel, cut where it crosses itself."""
    steps = [(a, b) for a, b in itertools.pairwise(points) if distance(a, b) > 1e-9]
    if off == 0 or not steps:
        return tuple(points)
    normals = [((a[1] - b[1]) / distance(a, b), (b[0] - a[0]) / distance(a, b)) for a, b in steps]
    found, back = [_off(steps[0][0], normals[0], off)], False
    for (before, corner), one, two in zip(steps, normals, normals[1:], strict=False):
        lean = 1 + one[0] * two[0] + one[1] * two[1]
        last = found[-1]
        if lean > 0.2:
            found.append((corner[0] + (one[0] + two[0]) * off / lean, corner[1] + (one[1] + two[1]) * off / lean))
        else:
            found += [_off(corner, one, off), _off(corner, two, off)]
            back = True
        ran, runs = (found[-1][0] - last[0], found[-1][1] - last[1]), (corner[0] - before[0], corner[1] - before[1])
        back = back or ran[0] * runs[0] + ran[1] * runs[1] < 0
    found.append(_off(steps[-1][1], normals[-1], off))
    return _unlooped(found, LONGEST_LOOP * abs(off)) if back else tuple(found)


def _off(point: Point, normal: Point, off: float) -> Point:
    return point[0] + normal[0] * off, point[1] + normal[1] * off


def _unlooped(points: list[Point], longest: float) -> Flat:
    """Without the small loops that a parallel to a tight inner curve makes; a loop is no longer than `longest`."""
    ways = [0.0, *itertools.accumulate(distance(one, two) for one, two in itertools.pairwise(points))]
    found: list[Point] = []
    at = 0
    while at < len(points):
        found.append(points[at])
        after = at + 1
        for ahead in range(min(len(points) - 2, bisect.bisect(ways, ways[at] + longest)), at + 1, -1):
            crossing = _crossing(points[at], points[at + 1], points[ahead], points[ahead + 1])
            if crossing is not None:
                found.append(crossing)
                after = ahead + 1
                break
        at = after
    return tuple(found)


def _crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where two stretches cross, or None."""
    shares = shares_of(a, b, c, d)
    if shares is None or not (0 <= shares[0] <= 1 and 0 <= shares[1] <= 1):
        return None
    return a[0] + (b[0] - a[0]) * shares[0], a[1] + (b[1] - a[1]) * shares[0]


def shares_of(a: Point, b: Point, c: Point, d: Point) -> tuple[float, float] | None:
    """How far along a-b and along c-d the two endless lines cross, each as a share of its stretch."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-12:
        return None
    wx, wy = c[0] - a[0], c[1] - a[1]
    return (wx * vy - wy * vx) / turn, (wx * uy - wy * ux) / turn


Spot = tuple[int, float, Point]


def _joint(one: Flat, two: Flat, widest: float, corner: Point) -> tuple[Spot, Spot]:
    """Where a seam line ends and its neighbour begins: the stretch's number, the share along it, and the point."""
    reach = LONGEST_MITRE * widest + 1e-6
    for back in range(len(one) - 2, -1, -1):
        for ahead in range(len(two) - 1):
            crossing = _crossing(one[back], one[back + 1], two[ahead], two[ahead + 1])
            if crossing is not None and distance(crossing, corner) <= reach:
                return (back, 0.0, crossing), (ahead, 0.0, crossing)
            if distance(two[ahead + 1], corner) > reach:
                break
        if distance(one[back], corner) > reach:
            break
    last, first = len(one) - 2, 0
    apart = (last, 1.0, one[-1]), (first, 0.0, two[0])
    if _bend(one[-2], one[-1], two[0], two[1]) < STRAIGHT_ON:
        return apart
    shares = shares_of(one[-2], one[-1], two[0], two[1])
    if shares is None or shares[0] < 0 or shares[1] > 1:
        return apart
    a, b = one[-2], one[-1]
    meeting = (a[0] + (b[0] - a[0]) * shares[0], a[1] + (b[1] - a[1]) * shares[0])
    if distance(meeting, corner) > LONGEST_MITRE * widest + 1e-6:
        return apart
    return (last, shares[0], meeting), (first, shares[1], meeting)


def _bend(a: Point, b: Point, c: Point, d: Point) -> float:
    """The angle between two stretches, in radians."""
    one, two = math.atan2(b[1] - a[1], b[0] - a[0]), math.atan2(d[1] - c[1], d[0] - c[0])
    return abs((two - one + math.pi) % (2 * math.pi) - math.pi)


def _between(points: Flat, first: Spot, last: Spot) -> Flat:
    """From one joint to the other along a moved line."""
    inner = points[first[0] + 1 : last[0] + 1]
    ends = [first[2], *inner, last[2]]
    return tuple(point for at, point in enumerate(ends) if at == 0 or distance(point, ends[at - 1]) > 1e-9)
