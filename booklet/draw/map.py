"""The map of the garment: pieces flow into parts, parts into the garment, with the number of the step at each joint."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.draw import svg
from booklet.draw.drawing import Drawing
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.joints import lay_out, named, note_of
from booklet.draw.letters import cut, width
from booklet.draw.piece import ink_cut
from booklet.draw.place import Label
from booklet.draw.section import named as file_name
from booklet.draw.titles import titles_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.draw.joints import Row, Sheet
    from booklet.draw.titles import Title
    from booklet.plan.flow import GarmentMap
    from booklet.shape.figure_size import FigureShapes

# From the middle of a mark to the base line of its letters, in sizes of type: half the height of a capital.
_DOWN = 0.33


def draw_map(garment: GarmentMap, shapes: FigureShapes | None = None) -> Drawing | None:
    """147 mm wide, at most a page high. None where a page would not hold it: `garment.says` says it still.

    shapes: for the pictures of the pieces; names alone where there is none.
    """
    known = {} if shapes is None else {lane.piece: shapes.of(lane.piece, shapes.figure_size) for lane in garment.every}
    pieces = {name: shape for name, shape in known.items() if shape is not None}
    sheet = lay_out(garment, bool(pieces))
    if sheet is None:
        return None
    said = " ".join(("How the pieces come together, step by step.", *garment.says))
    drawing = svg.document(sheet.wide, sheet.high, said)
    titles = titles_of(garment, sheet.rows, sheet.grid.lanes)
    _lanes(drawing, sheet, titles)
    largest = max((_long(shape.cut) for shape in pieces.values()), default=1.0)
    for row in sheet.rows:
        shape = pieces.get(row.lane.piece)
        if shape is not None and sheet.grid.picture:
            share = (_long(shape.cut) / largest) ** look()["map"]["shrink"]
            wide, high = sheet.grid.picture * share, (sheet.grid.row - millimetres("map", "air")) * share
            ink_cut(drawing, shape, row.lane.cloth, (sheet.grid.picture / 2, row.y), (wide, high))
    _joints(drawing, sheet.rows)
    _views(drawing, sheet)
    _words(drawing, sheet, titles)
    text = drawing.tostring()
    caption = "Pieces at the left; each number is the step that joins what meets there"
    return Drawing(file_name("map", text), text, sheet.wide, sheet.high, True, said, caption)


def _long(points_: Iterable[tuple[float, float]]) -> float:
    xs, ys = zip(*points_, strict=True)
    return float(max(max(xs) - min(xs), max(ys) - min(ys)))


def _lanes(drawing: Any, sheet: Sheet, titles: Iterable[Title]) -> None:
    """First the lanes that end in others, over them the main ones; a leader to a name that stands apart."""
    ink = {"stroke_linecap": "round", "stroke_linejoin": "round"}
    quiet = svg.group(drawing, "lanes", stroke=colour("branches", "lane_colour"), **ink)
    strong = svg.group(drawing, "trunk", stroke=colour("branches", "trunk_colour"), **ink)
    quiet["stroke-width"] = svg.number(points("branches", "lane"))
    strong["stroke-width"] = svg.number(points("branches", "trunk"))
    for row in sheet.rows:
        (strong if row.into is None else quiet).add(drawing.path(_lane(row, sheet.grid.lanes)))
    thin = svg.group(drawing, "leaders", stroke=colour("measure"))
    thin["stroke-width"] = svg.number(points("measure", "line"))
    for title in titles:
        if title.leader is not None:
            x, y = title.leader
            thin.add(drawing.path(f"M{svg.number(x)} {svg.number(title.box.bottom + 0.3)}V{svg.number(y)}"))
    drawing.add(quiet)
    drawing.add(strong)
    if thin.elements:
        drawing.add(thin)


def _lane(row: Row, start: float) -> str:
    number, y = svg.number, svg.number(row.y)
    if row.into is None:
        return f"M{number(start)} {y}H{number(row.end)}"
    bend = millimetres("branches", "bend")
    return (
        f"M{number(start)} {y}H{number(row.end - bend)}"
        f"A{number(bend)} {number(bend)} 0 0 0 {number(row.end)} {number(row.y - bend)}V{number(row.into.box.bottom)}"
    )


def _joints(drawing: Any, rows: Iterable[Row]) -> None:
    """White, with a ring; a main lane's ring is as strong as its line."""
    labels = []
    for row in rows:
        weight = points("branches", "trunk" if row.into is None else "lane")
        ring = colour("branches", "trunk_colour" if row.into is None else "lane_colour")
        made = svg.group(drawing, "joints", stroke=ring)
        made["stroke-width"] = svg.number(weight)
        for spot in row.spots:
            box = spot.box
            corner, size = (svg.number(box.left), svg.number(box.top)), (svg.number(spot.wide), svg.number(spot.high))
            round_ = svg.number(millimetres("map", "joint") / 2)
            made.add(drawing.rect(corner, size, rx=round_, ry=round_, fill=colour("branches", "paper_colour")))
            top = spot.y - millimetres("words", "leading") * (len(spot.words) - 1) / 2 + _base()
            leading = millimetres("words", "leading")
            labels += [Label(line, spot.x, top + at * leading, "middle") for at, line in enumerate(spot.words)]
        if row.spots:
            drawing.add(made)
    drawing.add(_lettering(drawing, labels, heavy=True))


def _base() -> float:
    return points("words", "size") * _DOWN


def _views(drawing: Any, sheet: Sheet) -> None:
    """As under the numbers of the steps: filled with its letter when the piece is for the view, open when not."""
    high = millimetres("branches", "square")
    filled = svg.group(drawing, "marks", stroke="none")
    filled["fill"] = colour("branches", "mark_colour")
    empty = svg.group(drawing, "open", stroke=colour("map", "open_colour"))
    empty["stroke-width"] = svg.number(points("map", "open"))
    labels = []
    for row in sheet.rows:
        for letter, x in sheet.grid.marks.items():
            words = cut(letter, 12, heavy=True)
            wide = max(high, width(words, heavy=True) + 1.6)
            for_it = letter in row.lane.views
            inside = 0.0 if for_it else points("map", "open") / 2
            corner = (svg.number(x - wide / 2 + inside), svg.number(row.y - high / 2 + inside))
            size = (svg.number(wide - 2 * inside), svg.number(high - 2 * inside))
            (filled if for_it else empty).add(drawing.rect(corner, size))
            if for_it:
                labels.append(Label(words, x, row.y + _base(), "middle"))
    if labels:
        drawing.add(filled)
        drawing.add(empty)
        drawing.add(_lettering(drawing, labels, colour("branches", "paper_colour"), heavy=True))


def _words(drawing: Any, sheet: Sheet, titles: Iterable[Title]) -> None:
    leading, grid = millimetres("words", "leading"), sheet.grid
    names, notes = [], []
    for row in sheet.rows:
        lines, note = (
            named(row.lane, grid.names_wide, grid.row >= 2 * leading + 0.6),
            note_of(row.lane, grid.row, grid.names_wide),
        )
        top = row.y - leading * (len(lines) - (0 if note else 1)) / 2 + _base()
        if note:
            notes.append(Label(note, grid.names, top + leading * len(lines), "start"))
        names += [Label(line, grid.names, top + at * leading, "start") for at, line in enumerate(lines)]
    drawing.add(_lettering(drawing, names))
    if notes:
        drawing.add(_lettering(drawing, notes, colour("branches", "quiet_colour")))
    for heavy in (False, True):
        labels = [label for one in titles if one.heavy == heavy for label in _lines(one)]
        if labels:
            drawing.add(_lettering(drawing, labels, heavy=heavy))


def _lines(title: Title) -> Iterable[Label]:
    leading = millimetres("words", "leading")
    return (Label(line, title.x, title.y + at * leading, title.anchor) for at, line in enumerate(title.lines))


def _lettering(drawing: Any, labels: list[Label], ink: str = "", heavy: bool = False) -> Any:
    made = svg.words(drawing, tuple(labels))
    if ink:
        made["fill"] = ink
    if heavy:
        made["font-weight"] = look()["words"]["heavy"]
    return made
