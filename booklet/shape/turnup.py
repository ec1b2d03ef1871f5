"""A deep allowance turned up: how long its cut edge is, and how long the cloth on which that comes to lie."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from booklet.shape.course import Point, between, distance, length
from booklet.shape.seamline import Flat, beside, shares_of

if TYPE_CHECKING:
    from booklet.shape.piece import PieceShape, ShapedEdge

# An allowance as deep as this must fit what it is turned onto, in mm. Our choice: a shallower one gives.
DEEP = 19.0


def turned_up(shape: PieceShape, edge: ShapedEdge) -> tuple[float, float] | None:
    """Both from seam line to seam line of its neighbours. None for a shallow one, or where these are too short."""
    names = list(shape.edges)
    if edge.allowance < DEEP or len(names) < 3:
        return None
    at = names.index(edge.name)
    before, after = shape.edges[names[at - 1]], shape.edges[names[(at + 1) % len(names)]]
    if min(length(before.cut), length(after.cut)) < 2.5 * edge.allowance:
        return None
    way = -1 if shape.backwards else 1
    first, last = [before, after][::way]
    reach = 2.5 * edge.allowance
    sides = [
        _longer(beside(first.cut[::way], first.allowance)[-40:], reach),
        _longer(beside(last.cut[::way], last.allowance)[:40], reach),
    ]
    outer = _between(edge.cut[::way], sides, reach)
    inner = _between(beside(edge.cut[::way], 2 * edge.allowance), sides, reach)
    return None if outer is None or inner is None else (outer, inner)


def _longer(points: Flat, more: float) -> Flat:
    """Run on straight at both ends."""
    return (_ahead(points[1], points[0], more), *points, _ahead(points[-2], points[-1], more))


def _ahead(one: Point, two: Point, more: float) -> Point:
    share = more / (distance(one, two) or 1.0)
    return two[0] + (two[0] - one[0]) * share, two[1] + (two[1] - one[1]) * share


def _between(points: Flat, sides: list[Flat], reach: float) -> float | None:
    """The length of a line between the two that cross it, each crossing the nearest to its own end."""
    line = _longer(points, reach)
    whole = length(line)
    first = min(_crossings(line, sides[0]), key=lambda way: abs(way - reach), default=None)
    last = min(_crossings(line, sides[1]), key=lambda way: abs(whole - reach - way), default=None)
    if first is None or last is None or last <= first:
        return None
    return length(between(line, first, last))


def _crossings(line: Flat, other: Flat) -> list[float]:
    """How far along the line each crossing lies."""
    found, gone = [], 0.0
    for one, two in itertools.pairwise(line):
        for first, last in itertools.pairwise(other):
            shares = shares_of(one, two, first, last)
            if shares is not None and 0 <= shares[0] <= 1 and 0 <= shares[1] <= 1:
                found.append(gone + shares[0] * distance(one, two))
        gone += distance(one, two)
    return found
