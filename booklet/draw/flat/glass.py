"""A round inset: a place of the work that is too narrow to be seen, three times as large."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.ink import ink_view
from booklet.draw.flat.paper import Paper
from booklet.draw.flat.strokes import allowances
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.svg import number
from booklet.shape.course import Point, along, length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.draw.flat.sheet import Sheet
    from booklet.draw.flat.strokes import Marked
    from booklet.draw.flat.view import SeenMark, View
    from booklet.plan.picture import Mark
    from booklet.shape.seamline import Flat

# What is done to allowances, or close to an edge.
NARROW = frozenset({"trim", "clip", "notch", "understitch"})
# White kept round the inset, in millimetres on paper.
AIR = 1.0
# From place to place in the search, in millimetres on paper.
STEP = 2.5
# What an inset that stands wholly on cloth costs more than one on bare paper, in millimetres of distance. Our choice.
COVERS = 8.0
# So many places are looked at together.
CHUNK = 64
# At which places of the work may it look, as shares of its length?
SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.25, 0.75)


class Glass(NamedTuple):
    """spot: what it looks at; centre: where it stands; both in the picture's millimetres on paper."""

    spot: Point
    centre: Point

    @property
    def radius(self) -> float:
        return millimetres("pieces", "inset_radius")

    @property
    def ring(self) -> float:
        """The radius of the ring round the spot."""
        return self.radius / millimetres("pieces", "inset")

    def taken(self) -> list[Any]:
        """What it takes of the paper: itself, the ring, and the line between."""
        from shapely import LineString
        from shapely import Point as Spot

        return [
            Spot(self.centre).buffer(self.radius + 0.3),
            Spot(self.spot).buffer(self.ring).exterior,
            LineString(self.leader()),
        ]

    def bounds(self) -> list[tuple[float, float, float, float]]:
        """Of the inset and of the ring."""
        both = ((self.centre, self.radius), (self.spot, self.ring))
        return [(x - reach, y - reach, x + reach, y + reach) for (x, y), reach in both]

    def leader(self) -> tuple[Point, Point]:
        """From ring to ring."""
        dx, dy = self.centre[0] - self.spot[0], self.centre[1] - self.spot[1]
        far = math.hypot(dx, dy)
        one, two = self.ring / far, 1 - self.radius / far
        return (self.spot[0] + dx * one, self.spot[1] + dy * one), (self.spot[0] + dx * two, self.spot[1] + dy * two)


def glass_for(
    marks: Sequence[Mark], sheets: Sequence[Sheet], done: Sequence[Marked], seen: View, ink: Any, room: float
) -> Glass | None:
    """Where one is needed, and where it stands: over nothing that is drawn, or over as little as can be.

    sheets: of each mark; ink: every line of the view; room: how wide the figure may be.
    """
    from shapely import MultiLineString, union_all

    spots = [
        seen.paper(along(line, length(line) * share))
        for mark, sheet, one in zip(marks, sheets, done, strict=True)
        if mark.kind in NARROW and (one.strokes or mark.kind != "trim") and _narrow(mark, sheet, seen.paper.scale)
        for line in _middles(mark, sheet) or one.work[:1]
        for share in SHARES
    ]
    ring = millimetres("pieces", "inset_radius") / millimetres("pieces", "inset")
    spots = [spot for spot in spots if _inside(spot, seen.paper, ring)]
    if not spots:
        return None
    strokes = [line for mark in seen.marks for _, lines in mark.strokes for line in lines]
    cloths = union_all([one.area for one in seen.cloths])
    centre = _centre(spots[0], ink, MultiLineString(strokes), cloths, room, ring)
    return None if centre is None else Glass(spots[0], centre)


def _narrow(mark: Mark, sheet: Sheet, scale: float) -> bool:
    edges = [sheet.lying.shape.edges[name] for name in mark.edges if name in sheet.lying.shape.edges]
    return bool(edges) and min(edge.allowance for edge in edges) * scale < millimetres("pieces", "narrow")


def _middles(mark: Mark, sheet: Sheet) -> list[Flat]:
    """Half-way between the seam and the edge as it was before it was trimmed, so that both are seen."""
    if mark.kind == "understitch" or mark.word:
        return []
    own = allowances(mark, sheet)
    edge = {name: 0.0 if mark.kind == "trim" else sheet.ends.get(name, 0.0) for name in own}
    return sheet.rows({name: (edge[name] + own[name]) / 2 for name in own}, own)[:1]


def _inside(spot: Point, paper: Paper, ring: float) -> bool:
    return (
        0 <= spot[0] <= paper.width
        and 0 <= spot[1] <= paper.height
        and (paper.whole or (ring < spot[0] < paper.width - ring and ring < spot[1] < paper.height - ring))
    )


def _centre(spot: Point, ink: Any, work: Any, cloths: Any, room: float, ring: float) -> Point | None:
    """Near the spot, over no work; where it makes the figure larger, or covers lines, that counts against a place."""
    from shapely import area, buffer, distance, intersection
    from shapely import points as places

    radius = millimetres("pieces", "inset_radius") + AIR
    left, top, right, bottom = ink.bounds
    across = [left - 2 * radius + STEP * at for at in range(int((right - left + 4 * radius) / STEP) + 1)]
    down = [top - 2 * radius + STEP * at for at in range(int((bottom - top + 4 * radius) / STEP) + 1)]
    found = [
        (x, y)
        for x in across
        for y in down
        if max(right, x + radius) - min(left, x - radius) <= room
        and math.hypot(x - spot[0], y - spot[1]) > radius + ring
    ]

    def cost(x: float, y: float) -> float:
        wider = max(right, x + radius) - min(left, x - radius) - (right - left)
        higher = max(bottom, y + radius) - min(top, y - radius) - (bottom - top)
        return float(math.hypot(x - spot[0], y - spot[1]) + 0.5 * wider + 1.2 * higher)

    cheapest = sorted((round(cost(x, y), 9), at) for at, (x, y) in enumerate(found))
    best: tuple[float, int] | None = None
    for first in range(0, len(cheapest), CHUNK):
        some = cheapest[first : first + CHUNK]
        if best is not None and some[0][0] > best[0]:
            break
        spread = places([found[at] for _, at in some])
        from_work, from_ink = distance(work, spread).tolist(), distance(ink, spread).tolist()
        whole = math.pi * (radius - AIR) ** 2
        # A place that covers lines or cloth costs more; how much cloth is looked at last.
        clear = sorted(
            (price + 3 * max(0.0, radius - near), nth)
            for nth, ((price, _), off, near) in enumerate(zip(some, from_work, from_ink, strict=True))
            if off >= radius
        )
        for price, nth in clear:
            if best is not None and round(price, 9) > best[0]:
                break
            covered = area(intersection(buffer(spread[nth], radius - AIR, quad_segs=4), cloths))
            one = round(price + COVERS * float(covered) / whole, 9), some[nth][1]
            if best is None or one < best:
                best = one
    return found[best[1]] if best else None


def glass_paper(glass: Glass, paper: Paper) -> Paper:
    """The paper of what is seen in it, its own corner at nought."""
    from shapely import Point as Spot

    scale = paper.scale * millimetres("pieces", "inset")
    x, y = paper.box[0] + glass.spot[0] / paper.scale, paper.box[1] + glass.spot[1] / paper.scale
    reach = glass.radius / scale
    return Paper(
        scale,
        (x - reach, y - reach, x + reach, y + reach),
        False,
        Spot(glass.radius, glass.radius).buffer(glass.radius),
    )


def ink_glass(drawing: Any, into: Any, glass: Glass, seen: View) -> None:
    """The ring, the line, and the inset over whatever lies there."""
    thin = {"fill": "none", "stroke": colour("measure"), "stroke_width": number(points("pieces", "rest"))}
    (x0, y0), (x1, y1) = glass.leader()
    into.add(drawing.path(f"M{number(x0)} {number(y0)}L{number(x1)} {number(y1)}", **thin))
    into.add(drawing.circle(_place(glass.spot), number(glass.ring), **thin))
    paper = {"fill": look()["pieces"]["wrong"], "stroke": "none"}
    into.add(drawing.circle(_place(glass.centre), number(glass.radius), **paper))
    left, top = glass.centre[0] - glass.radius, glass.centre[1] - glass.radius
    inner = drawing.g(transform=f"translate({number(left)} {number(top)})")
    ink_view(drawing, inner, seen._replace(marks=[_no_hands(mark) for mark in seen.marks]))
    into.add(inner)
    into.add(drawing.circle(_place(glass.centre), number(glass.radius), **thin))


def _no_hands(mark: SeenMark) -> SeenMark:
    """Arrows are for the whole picture."""
    return mark._replace(strokes=[(kind, lines) for kind, lines in mark.strokes if kind != "arrow"])


def _place(point: Point) -> tuple[str, str]:
    return number(point[0]), number(point[1])
