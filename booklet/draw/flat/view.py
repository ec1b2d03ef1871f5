"""A figure on paper: what of each cloth is seen, what is hidden, and where the picture ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.ink import millimetres

if TYPE_CHECKING:
    from booklet.draw.flat.paper import Paper
    from booklet.draw.flat.sheet import Sheet
    from booklet.draw.flat.strokes import Marked
    from booklet.shape.seamline import Flat

# A hidden edge closer than this to a visible one, in millimetres on paper, is not drawn beside it. Our choice.
BESIDE = 0.45
# A mark further from every cloth than this, in millimetres on paper, is on what was cut off before. Our choice.
NEAR = 2.0
# Shorter pieces of hidden edges say nothing. Our choice.
SHORTEST = 1.2


class Seen(NamedTuple):
    """One cloth on paper.

    area: all of it that the picture holds; free: what no other cloth covers; outline: its own edges; hidden: edges
    under other cloths; ends: where the picture ends; centre: its centre line; fold: a second line beside a fold.
    """

    sheet: Sheet
    strong: bool
    area: Any
    free: Any
    outline: list[Flat]
    hidden: list[Flat]
    ends: list[Flat]
    centre: list[Flat]
    fold: list[Flat]


class SeenMark(NamedTuple):
    """What one mark draws, on paper. patches: number of the cloth, side, kind of cloth and area; strokes by kind."""

    patches: list[tuple[str, str, Any]]
    strokes: list[tuple[str, list[Flat]]]


class View(NamedTuple):
    """cloths: lowest first; marks: as asked for; on: the number of each mark's cloth."""

    paper: Paper
    cloths: list[Seen]
    marks: list[SeenMark]
    on: list[int]

    def ink(self) -> Any:
        """Every line of the figure, as one geometry that words keep away from."""
        from shapely import MultiLineString

        lines = [
            line
            for one in self.cloths
            for line in (*one.outline, *one.hidden, *one.ends, *one.centre, *one.fold)
            if len(line) > 1
        ]
        lines += [line for mark in self.marks for _, found in mark.strokes for line in found if len(line) > 1]
        lines += [ring.coords for mark in self.marks for _, _, area in mark.patches for ring in rings_of(area)]
        return MultiLineString(lines)


def view(
    made: list[Sheet], strong: set[int], done: list[Marked], on: list[int], paper: Paper, near: float = NEAR
) -> View:
    """strong: which of the sheets are in hand; on: the sheet of each mark; near: how far from the cloths a mark may
    lie, in millimetres on paper."""
    from shapely import Polygon, prepare, union

    areas = [paper.laid(sheet.area) for sheet in made]
    above: Any = Polygon()
    cloths: list[Seen] = []
    for at in range(len(made) - 1, -1, -1):
        cloths.append(_seen(made[at], at in strong, areas[at], above, paper))
        above = union(above, areas[at])
    around = above.buffer(near, quad_segs=2)
    prepare(around)
    return View(paper, cloths[::-1], [_mark(one, paper, around) for one in done], on)


def _seen(sheet: Sheet, strong: bool, area: Any, above: Any, paper: Paper) -> Seen:
    from shapely import LineString, MultiLineString

    outline = MultiLineString([ring.coords for ring in rings_of(sheet.area)])
    if sheet.torn is not None:
        outline = outline.difference(sheet.torn.buffer(0.6))
    lines = paper.laid(outline)
    free = area if above.is_empty else area.difference(above)
    hidden = [] if above.is_empty else lines_of(lines.intersection(above.buffer(-BESIDE)), SHORTEST)
    ends: list[Flat] = []
    if paper.clip is not None:
        ends = lines_of(paper.clip.exterior.intersection(free.buffer(0.02)), 0.5)
    if sheet.torn is not None:
        ends += lines_of(paper.laid(sheet.torn).intersection(free.buffer(0.02)), 0.5)
    centre = [] if sheet.centre is None else lines_of(paper.laid(LineString(sheet.centre)).intersection(free), SHORTEST)
    fold = [] if sheet.fold is None else _beside(sheet.fold, area, free, paper)
    return Seen(sheet, strong, area, free, lines_of(lines, 0.05), hidden, ends, centre, fold)


def _beside(fold: Flat, area: Any, free: Any, paper: Paper) -> list[Flat]:
    """A fold's second line, inside the cloth."""
    from shapely import LineString

    gap = millimetres("key_lines", "fold_gap")
    line = paper.laid(LineString(fold)).intersection(area.buffer(0.05))
    found: list[Flat] = []
    for one in lines_of(line, SHORTEST):
        both = (LineString(one).offset_curve(off).intersection(free) for off in (gap, -gap))
        found += lines_of(max(both, key=lambda cut: cut.length), SHORTEST)
    return found


def _mark(one: Marked, paper: Paper, near: Any) -> SeenMark:
    """near: the cloths and a little round them; a line that lies quite outside was cut off with the cloth."""
    from shapely import intersects

    patches = [(patch.face, patch.cloth, paper.laid(patch.area)) for patch in one.patches]
    kinds = [stroke.kind for stroke in one.strokes if len(stroke.line) > 1]
    laid = paper.all_laid([stroke.line for stroke in one.strokes if len(stroke.line) > 1])
    seen = zip(kinds, laid, intersects(near, laid).tolist(), strict=True) if kinds else ()
    strokes = [(kind, lines_of(line, 0.05)) for kind, line, is_near in seen if is_near]
    return SeenMark([patch for patch in patches if not patch[2].is_empty], [stroke for stroke in strokes if stroke[1]])


def lines_of(shape: Any, shortest: float) -> list[Flat]:
    """The lines of a geometry that are long enough to be seen, those that follow each other as one."""
    from shapely import line_merge

    merged = line_merge(shape) if shape.geom_type in ("MultiLineString", "GeometryCollection") else shape
    return [tuple(one.coords) for one in _lines(merged) if one.length > shortest]


def _lines(shape: Any) -> Iterator[Any]:
    if shape.geom_type in ("LineString", "LinearRing") and not shape.is_empty:
        yield shape
    for one in getattr(shape, "geoms", ()):
        yield from _lines(one)


def rings_of(shape: Any) -> Iterator[Any]:
    for area in areas_of(shape):
        yield from (area.exterior, *area.interiors)


def areas_of(shape: Any) -> Iterator[Any]:
    if shape.geom_type == "Polygon" and not shape.is_empty:
        yield shape
    for one in getattr(shape, "geoms", ()):
        yield from areas_of(one)
