"""A piece whose edge is gathered: drawn together along that edge, and as wide as it was farther away."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from booklet.draw.flat.bend import densely, feet
from booklet.shape.course import Point, along, distance, length, nearest
from booklet.shape.motion import Motion
from booklet.shape.seamline import Flat

# How far does the narrowing reach, as a share of the edge's length? Our choice.
REACH = 0.6


class DrawnUp(NamedTuple):
    """own: the edge's seam line; still: the point of it that stays where it is; share: how long it is when drawn up,
    of what it was. `then`: a motion of the whole."""

    own: Flat
    still: Point
    share: float
    then: Motion

    @property
    def flipped(self) -> bool:
        return self.then.flipped

    def __call__(self, point: Point) -> Point:
        return self._drawn(point, nearest(self.own, point)[1])

    def _drawn(self, point: Point, off: float) -> Point:
        """off: how far the point is from the edge."""
        whole = distance(self.own[0], self.own[-1]) or 1.0
        across = (self.own[-1][0] - self.own[0][0]) / whole
        down = (self.own[-1][1] - self.own[0][1]) / whole
        away = min(off / (REACH * length(self.own)), 1.0)
        grown = self.share + (1 - self.share) * away * away * (3 - 2 * away)
        aside = (point[0] - self.still[0]) * across + (point[1] - self.still[1]) * down
        return self.then((point[0] + across * aside * (grown - 1), point[1] + down * aside * (grown - 1)))

    def all(self, points: Sequence[Point]) -> Flat:
        dense = densely(points)
        offs = (off for _, off in feet(self.own, dense))
        return tuple(self._drawn(point, off) for point, off in zip(dense, offs, strict=True))

    def moved(self, move: Motion) -> DrawnUp:
        return self._replace(then=move.after(self.then))


def drawn_up(own: Flat, at_fold: str, share: float, then: Motion) -> DrawnUp:
    """at_fold: which end lies on a fold and stays there, start | end; else the middle stays."""
    still = own[0] if at_fold == "start" else own[-1] if at_fold == "end" else along(own, length(own) / 2)
    return DrawnUp(own, still, share, then)
