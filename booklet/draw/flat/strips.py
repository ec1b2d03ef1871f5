"""Marks of what is let into a cloth or laid round its edge: bindings, plackets, welts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.draw.flat.fastened import slanting
from booklet.draw.flat.folds import between_lines
from booklet.draw.flat.strokes import Bench, Marked, Patch, Stroke
from booklet.draw.ink import millimetres
from booklet.shape.course import along, distance, length
from booklet.shape.seamline import Flat

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import Mark
    from booklet.shape.course import Point

# How wide is a binding whose width is not said, in millimetres of cloth? Common practice, no source: 1/4 in.
BOUND = 6.0
# How wide lie the two halves of a bound slit, and how wide a tower placket? Common practice, no source: 3/8 in, 1 in.
SLIT, TOWER = 10.0, 25.0
# How far does a tower reach beyond the slit: its box, and its point over that? Common practice, no source.
BOX, POINT = 12.0, 12.0
# How high is a welt, and each lip of a slashed pocket? Common practice, no source: 1/2 in, 1/4 in.
WELT, LIP = 12.0, 6.0


def bound(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A strip folded round an edge; stitched close to its fold, or sewn down by hand over it."""
    wide = max(float(mark.at.millimetres) if mark.at is not None else BOUND, bench.seen(1.2))
    ends = {name: sheet.ends.get(name, 0.0) for name in mark.edges if name in sheet.lying.shape.edges}
    edges = sheet.edges(ends)
    inner = sheet.rows({name: end + wide for name, end in ends.items()}, ends)
    patches = [
        Patch("right", sheet.lying.cloth.cloth, between_lines(*both).intersection(sheet.area))
        for both in zip(edges, inner, strict=False)
    ]
    if mark.word == "hand":
        strokes = [stroke for line in inner for stroke in slanting(line, 0.0, length(line), bench)]
    else:
        near = min(bench.seen(millimetres("pieces", "apart")), wide * 0.4)
        rows = sheet.rows({name: end + wide - near for name, end in ends.items()}, ends)
        strokes = [Stroke("stitch", row) for row in rows]
    measured = ((mark.at, inner[0]),) if mark.at is not None and inner else ()
    return Marked(tuple(patches), tuple(strokes), (*edges, *inner), measured)


def _lines(mark: Mark, sheet: Sheet) -> list[Flat]:
    """Edges or marked lines that the mark names, one after the other."""
    found: list[Flat] = []
    for name in mark.edges:
        if name in sheet.lying.shape.edges:
            found += sheet.edges([name])
        elif name in sheet.lying.shape.lines:
            found += sheet.placed([sheet.lying.shape.lines[name]])
    return found


def placket(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """The slit, and what lies round it: a strip on both its sides, or a tower on the right side of the cloth."""
    strokes: list[Stroke] = []
    patches: list[Patch] = []
    lines = _lines(mark, sheet)
    for line in lines:
        foot, top = _upward(line, sheet)
        wide = max(TOWER / 2 if mark.word == "tower" else SLIT, bench.seen(1.6))
        outline = _tower(foot, top, wide) if mark.word == "tower" else _box(foot, top, wide, 0.0)
        area = _polygon(outline).intersection(sheet.area)
        patches.append(Patch("right", sheet.lying.cloth.cloth, area))
        near = bench.seen(millimetres("pieces", "apart"))
        strokes += _rows(area.buffer(-near), foot, near)
        if mark.word == "tower":
            strokes.append(Stroke("stitch", _across(foot, top, wide, near)))
        strokes.append(Stroke("cut", (foot, top)))
    return Marked(tuple(patches), tuple(strokes), tuple(lines))


def welt(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Over its marked line: a welt that stands up from it, held at both ends; or two lips that meet on it."""
    strokes: list[Stroke] = []
    patches: list[Patch] = []
    lines = _lines(mark, sheet)
    for line in lines:
        one, two = (line[0], line[-1]) if line[0][0] <= line[-1][0] else (line[-1], line[0])
        near = bench.seen(millimetres("pieces", "apart"))
        up = max(WELT if mark.word == "welt" else LIP, bench.seen(2.0))
        down = 0.0 if mark.word == "welt" else up
        corners = [
            _off(one, one, two, up),
            _off(two, one, two, up),
            _off(two, one, two, -down),
            _off(one, one, two, -down),
        ]
        area = _polygon(corners)
        patches.append(Patch("right", sheet.lying.cloth.cloth, area))
        if mark.word == "welt":
            for end, other in ((one, two), (two, one)):
                at = along((end, other), near)
                strokes.append(Stroke("stitch", (at, _off(at, one, two, up))))
        else:
            strokes.append(Stroke("cut", (one, two)))
            around = [*area.buffer(near, join_style="mitre").exterior.coords]
            strokes.append(Stroke("stitch", tuple(around)))
    return Marked(tuple(patches), tuple(strokes), tuple(lines))


def _off(point: Point, one: Point, two: Point, up: float) -> Point:
    """A point moved square to a line that runs to the right, upward on paper."""
    whole = distance(one, two) or 1.0
    across, down = (two[0] - one[0]) / whole, (two[1] - one[1]) / whole
    return point[0] + down * up, point[1] - across * up


def _upward(line: Flat, sheet: Sheet) -> tuple[Point, Point]:
    """The end of a slit at the edge of its cloth, and its other end."""
    from shapely import Point as Spot

    edge = sheet.area.boundary
    ends = sorted((line[0], line[-1]), key=lambda end: edge.distance(Spot(end)))
    return ends[0], ends[1]


def _box(foot: Point, top: Point, wide: float, more: float) -> list[Point]:
    """Beside a line on both its sides, from a little before its foot to some way past its top."""
    whole = distance(foot, top) or 1.0
    ux, uy = (top[0] - foot[0]) / whole, (top[1] - foot[1]) / whole
    low, high = (foot[0] - ux * wide, foot[1] - uy * wide), (top[0] + ux * more, top[1] + uy * more)
    return [
        (low[0] - uy * wide, low[1] + ux * wide),
        (high[0] - uy * wide, high[1] + ux * wide),
        (high[0] + uy * wide, high[1] - ux * wide),
        (low[0] + uy * wide, low[1] - ux * wide),
    ]


def _tower(foot: Point, top: Point, wide: float) -> list[Point]:
    whole = distance(foot, top) or 1.0
    ux, uy = (top[0] - foot[0]) / whole, (top[1] - foot[1]) / whole
    one, two, three, four = _box(foot, top, wide, BOX)
    return [one, two, (top[0] + ux * (BOX + POINT), top[1] + uy * (BOX + POINT)), three, four]


def _across(foot: Point, top: Point, wide: float, near: float) -> Flat:
    """The row over the end of the slit, that closes the box of a tower."""
    _, one, two, _ = _box(foot, top, wide - near, 0.0)
    return one, two


def _rows(inner: Any, foot: Point, near: float) -> list[Stroke]:
    """Round the inside of an area, but for the side at the open end."""
    from shapely import LineString
    from shapely import Point as Spot

    from booklet.draw.flat.view import lines_of

    if inner.is_empty:
        return []
    away = Spot(foot).buffer(near * 1.6)
    open_end = LineString(inner.exterior.coords).difference(away)
    bottom = [one for one in lines_of(open_end, near) if one]
    return [Stroke("stitch", line) for line in bottom]


def _polygon(points: list[Point]) -> Any:
    from shapely import Polygon

    return Polygon(points).buffer(0)
