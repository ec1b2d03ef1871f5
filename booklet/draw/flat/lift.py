"""A corner of the upper cloth folded back, so that what lies under it is seen."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.strokes import Marked, Patch
from booklet.draw.flat.view import areas_of
from booklet.draw.ink import millimetres
from booklet.shape.course import Point, distance

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.draw.flat.paper import Paper
    from booklet.draw.flat.sheet import Sheet

# Between which angles is a corner folded back, in degrees? Our choice: others look like no corner.
SHARPEST, BLUNTEST = 55.0, 125.0
# How much longer than the fold's sides must the edges at the corner be? Our choice.
EDGES = 1.25
# No more of the cloth's width is folded back than this share, and no less than so many millimetres on paper.
CLOTH, LEAST = 0.45, 4.0
# White between what is folded back and the work, in millimetres on paper.
AIR = 1.2
# How much longer than the fold is what is cut off along it, at each end, as a share?
WIDER = 0.03


class Lifted(NamedTuple):
    """The cloth without its corner, the corner as a flap, and which cloth it is."""

    at: int
    sheet: Sheet
    flap: Marked


def lifted(made: Sequence[Sheet], done: Sequence[Marked], paper: Paper) -> Lifted | None:
    """Of the uppermost cloth that is laid on another; None where no corner is free, or where that hides work."""
    from shapely import LineString, MultiLineString, Polygon, prepare, union_all

    at = max((at for at, sheet in enumerate(made) if sheet.lying.cloth.how == "laid"), default=0)
    left, top, right, bottom = made[at].area.bounds
    side = min(millimetres("pieces", "lift") / paper.scale, CLOTH * min(right - left, bottom - top))
    if at == 0 or side * paper.scale < LEAST:
        return None
    strokes = [LineString(stroke.line) for one in done for stroke in one.strokes if len(stroke.line) > 1]
    patches = [patch.area for one in done for patch in one.patches]
    above = [sheet.area for sheet in made[at + 1 :]]
    taken: Any = union_all([MultiLineString(strokes).buffer(AIR / paper.scale, quad_segs=2), *patches, *above])
    prepare(taken)
    lower = union_all([sheet.area for sheet in made[:at] if sheet.lying.cloth.how not in ("under", "over")])
    found: list[tuple[float, Any, Any]] = []
    for corner, one, two in _corners(made[at].area, side):
        away, flap = Polygon([corner, one, two]), Polygon([_mirrored(corner, one, two), one, two])
        if _share(paper.laid(away), away) < 0.98 * paper.scale**2 or taken.intersects(away) or taken.intersects(flap):
            continue
        if _share(lower.intersection(away), away) > 0.8 and _share(made[at].area.intersection(flap), flap) > 0.97:
            # The lower right-hand corner where there is a choice: what lies nearest to the reader is lifted.
            found.append((corner[0] + 1.5 * corner[1], away, flap))
    if not found:
        return None
    _, away, flap = max(found, key=lambda one: one[0])
    cloth = made[at].lying.cloth
    face = "right" if cloth.face == "wrong" else "wrong"
    rest = made[at]._replace(area=made[at].area.difference(_beyond(*away.exterior.coords[:3])))
    return Lifted(at, rest, Marked(patches=(Patch(face, cloth.cloth, flap),)))


def _share(area: Any, of: Any) -> float:
    return float(area.area / of.area)


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


def _beyond(corner: Point, one: Point, two: Point) -> Any:
    """All that lies beyond the fold, a little wider than the corner, so that no hair of a curved edge is left."""
    from shapely import Polygon

    (x, y), (dx, dy) = _mirrored(corner, one, two), (two[0] - one[0], two[1] - one[1])
    out = (corner[0] - x) * 0.7, (corner[1] - y) * 0.7
    one, two = (one[0] - dx * WIDER, one[1] - dy * WIDER), (two[0] + dx * WIDER, two[1] + dy * WIDER)
    return Polygon([one, two, (two[0] + out[0], two[1] + out[1]), (one[0] + out[0], one[1] + out[1])])


def _mirrored(point: Point, one: Point, two: Point) -> Point:
    """A point on the other side of the line through two others."""
    dx, dy = two[0] - one[0], two[1] - one[1]
    share = ((point[0] - one[0]) * dx + (point[1] - one[1]) * dy) / (dx * dx + dy * dy)
    return 2 * (one[0] + dx * share) - point[0], 2 * (one[1] + dy * share) - point[1]
