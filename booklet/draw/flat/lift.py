"""A corner of the upper cloth folded back, so that what lies under it is seen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.marks import Marked, Patch
from booklet.draw.flat.view import areas_of
from booklet.draw.ink import millimetres
from booklet.shape.course import Point, distance

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.draw.flat.paper import Paper
    from booklet.draw.flat.sheet import Sheet

# Between which angles is a corner folded back, in degrees? Our choice: others look like no corner.
SHARPEST, BLUNTEST = 55.0, 125.0
# How much longer than the fold's sides must the edges at the corner be, and how much larger the cloth? Our choice.
EDGES, CLOTH = 1.25, 2.4
# White between what is folded back and the work, in millimetres on paper.
AIR = 1.2


class Lifted(NamedTuple):
    """The cloth without its corner, the corner as a flap, and which cloth it is."""

    at: int
    sheet: Sheet
    flap: Marked


def lifted(made: Sequence[Sheet], done: Sequence[Marked], paper: Paper) -> Lifted | None:
    """Of the uppermost cloth that is laid on another; None where no corner is free, or where that hides work."""
    from shapely import LineString, MultiLineString, Polygon, box

    at = len(made) - 1
    upper = made[at]
    if upper.lying.cloth.how != "laid":
        return None
    side = millimetres("pieces", "lift") / paper.scale
    left, top, right, bottom = upper.area.bounds
    if min(right - left, bottom - top) < CLOTH * side:
        return None
    lower = next((sheet for sheet in made[:at] if sheet.lying.cloth.how not in ("under", "over")), None)
    strokes = [LineString(stroke.line) for one in done for stroke in one.strokes if len(stroke.line) > 1]
    work: Any = MultiLineString(strokes).buffer(AIR / paper.scale, quad_segs=2)
    inside = box(*paper.box).buffer(-side / 2)
    best: tuple[float, Polygon, Polygon] | None = None
    for corner, one, two in _corners(upper.area, side):
        away = Polygon([corner, one, two])
        flap = Polygon([_mirrored(corner, one, two), one, two])
        if lower is None or not inside.contains(flap) or work.intersects(away) or work.intersects(flap):
            continue
        if (
            lower.area.intersection(away).area < 0.8 * away.area
            or upper.area.intersection(flap).area < 0.97 * flap.area
        ):
            continue
        # The lower right-hand corner where there is a choice: what lies nearest to the reader is lifted.
        value = corner[0] + 1.5 * corner[1]
        if best is None or value > best[0]:
            best = value, away, flap
    if best is None:
        return None
    cloth = upper.lying.cloth
    face = "right" if cloth.face == "wrong" else "wrong"
    area = upper.area.difference(best[1])
    return Lifted(at, upper._replace(area=area), Marked(patches=(Patch(face, cloth.cloth, best[2]),)))


def _corners(area: Any, side: float) -> Iterator[tuple[Point, Point, Point]]:
    """Each corner between straight edges that are long enough, and the points on them where its fold ends."""
    for part in areas_of(area.simplify(side * 0.04)):
        ring = list(part.exterior.coords)[:-1]
        for at, corner in enumerate(ring):
            before, after = ring[at - 1], ring[(at + 1) % len(ring)]
            near, far = distance(corner, before), distance(corner, after)
            if min(near, far) < EDGES * side:
                continue
            one = _toward(corner, before, side / near)
            two = _toward(corner, after, 0.8 * side / far)
            turn = (before[0] - corner[0]) * (after[1] - corner[1]) - (before[1] - corner[1]) * (after[0] - corner[0])
            lean = (before[0] - corner[0]) * (after[0] - corner[0]) + (before[1] - corner[1]) * (after[1] - corner[1])
            angle = math.degrees(abs(math.atan2(turn, lean)))
            if SHARPEST <= angle <= BLUNTEST and part.contains(_middle(one, two)):
                yield corner, one, two


def _toward(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _middle(one: Point, two: Point) -> Any:
    from shapely import Point as Spot

    return Spot((one[0] + two[0]) / 2, (one[1] + two[1]) / 2)


def _mirrored(point: Point, one: Point, two: Point) -> Point:
    """A point on the other side of the line through two others."""
    dx, dy = two[0] - one[0], two[1] - one[1]
    share = ((point[0] - one[0]) * dx + (point[1] - one[1]) * dy) / (dx * dx + dy * dy)
    return 2 * (one[0] + dx * share) - point[0], 2 * (one[1] + dy * share) - point[1]
