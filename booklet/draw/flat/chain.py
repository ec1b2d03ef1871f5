"""Edges end to end: what one side of a seam looks like as one line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from booklet.shape.course import Point, along, distance, length
from booklet.shape.seamline import Flat


class Link(NamedTuple):
    """One edge of a chain: its line, whether the cloth lies to the right of its direction, its neighbours' names."""

    points: Flat
    inside_right: bool
    before: str
    after: str

    def turned(self) -> Link:
        return Link(self.points[::-1], not self.inside_right, self.after, self.before)


def chained(links: Sequence[Link]) -> Link:
    """One line through them, in the direction of the first where it is the only one."""
    if len(links) == 1:
        return links[0]
    first, second = links[0], links[1]
    ends = (second.points[0], second.points[-1])
    if min(distance(first.points[0], end) for end in ends) < min(distance(first.points[-1], end) for end in ends):
        first = first.turned()
    points, last = list(first.points), first
    for link in links[1:]:
        if distance(points[-1], link.points[-1]) < distance(points[-1], link.points[0]):
            link = link.turned()
        points += link.points
        last = link
    return Link(tuple(points), first.inside_right, first.before, last.after)


def sampled(points: Flat, number: int = 13) -> list[Point]:
    """Points at equal distances, both ends among them."""
    whole = length(points)
    return [along(points, whole * step / (number - 1)) for step in range(number)]
