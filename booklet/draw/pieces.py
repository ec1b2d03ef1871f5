"""The pattern pieces: each in small, for the table, and all of them at one scale, on a page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw import svg
from booklet.draw.drawing import Drawing
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.letters import BELOW, cut, fitted, width
from booklet.draw.piece import ink_printed
from booklet.draw.place import Label
from booklet.draw.section import named
from booklet.plan.naming import listed
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.plan.plan import PieceRow
    from booklet.shape.figure_size import FigureShapes
    from booklet.shape.piece import PieceShape

# Scales of the page of all pieces: life size through one of these. Our choice.
SCALES = (2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 22, 25, 28, 32, 36, 40, 50)


class Printed(NamedTuple):
    """A piece in one fitting ("" where one serves all); cloth: self | lining | interfacing."""

    row: PieceRow
    fitting: str
    shape: PieceShape
    cloth: str

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs, ys = zip(*self.shape.cut, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def name(self) -> str:
        return f"{self.row.name}, {self.fitting}" if self.fitting else self.row.name


def printed(rows: Sequence[PieceRow], shapes: FigureShapes) -> Iterator[Printed]:
    """Every piece of the rows that has an outline, in every fitting that is drawn, in the size of the figures."""
    for row in rows:
        for fitting in shapes.fittings_of(row.name):
            shape = shapes.of(row.name, shapes.figure_size, fitting)
            if shape is not None:
                yield Printed(row, fitting, shape, row.cloth)


def draw_pictures(rows: Sequence[PieceRow], shapes: FigureShapes) -> dict[str, tuple[Drawing, ...]]:
    """By `same_name` of the piece: one picture, or one for each fitting; the longest piece fills its room."""
    every = list(printed(rows, shapes))
    longest = max((max(_size(one)) for one in every), default=1.0)
    found: dict[str, tuple[Drawing, ...]] = {}
    for one in every:
        key = same_name(one.row.name)
        found[key] = (*found.get(key, ()), _picture(one, longest))
    return found


def _size(one: Printed) -> tuple[float, float]:
    left, top, right, bottom = one.box
    return right - left, bottom - top


def _picture(one: Printed, longest: float) -> Drawing:
    wide, high = _size(one)
    share = (max(wide, high) / longest) ** look()["map"]["shrink"]
    scale = min(millimetres("map", "thumb") / wide, millimetres("map", "thumb_high") / high) * share
    edge, (left, top, _, _) = 0.4, one.box
    across, down = wide * scale + 2 * edge, high * scale + 2 * edge
    shows = f"{one.name}."
    drawing = svg.document(across, down, shows)
    ink_printed(drawing, one.shape, one.cloth, (scale, edge - left * scale, edge - top * scale))
    text = drawing.tostring()
    return Drawing(named(f"piece {one.name}", text), text, round(across, 2), round(down, 2), False, shows, one.fitting)


class Cell(NamedTuple):
    """A piece on the page: the left top corner of its room, and the lines under it, of which the first are its name."""

    one: Printed
    x: float
    y: float
    wide: float
    high: float
    lines: tuple[str, ...]
    names: int


def draw_sheet(rows: Sequence[PieceRow], letters: Sequence[str], shapes: FigureShapes, high: float) -> Drawing | None:
    """All pieces at one scale, 147 mm wide and at most so high; None where there is none, or no scale small enough."""
    every = list(printed(rows, shapes))
    if not every:
        return None
    for part in SCALES:
        cells = _packed(every, 1 / part, letters, high)
        if cells is not None:
            return _sheet(cells, part, letters, shapes.figure_size)
    return None


def _packed(every: list[Printed], scale: float, letters: Sequence[str], high: float) -> list[Cell] | None:
    """In rows, in the order of their numbers, each piece over its words; None where that is too much."""
    wide_most, gap = millimetres("strip", "wide") - 2 * millimetres("strip", "margin"), millimetres("map", "sheet_gap")
    rows: list[list[Cell]] = [[]]
    x = 0.0
    for one in every:
        wide, tall = (side * scale for side in _size(one))
        lines, names = _lines(one, max(wide, millimetres("map", "sheet_words")))
        marks = _marks_wide(letters) if _some(one, letters) else 0.0
        room = max(wide + 0.4, marks, *(width(line, heavy=at < names) for at, line in enumerate(lines)))
        if room > wide_most:
            return None
        if rows[-1] and x + room > wide_most:
            rows.append([])
            x = 0.0
        rows[-1].append(Cell(one, x, 0.0, room, tall, lines, names))
        x += room + gap
    y, placed = 0.3, []
    for row in rows:
        tallest = max(cell.high for cell in row)
        # The last row need not fill the page.
        left = wide_most - sum(cell.wide for cell in row)
        spread = gap if row is rows[-1] else min(left / max(len(row) - 1, 1), 3 * gap)
        x = 0.0
        for cell in row:
            placed.append(cell._replace(x=x, y=y + tallest - cell.high))
            x += cell.wide + spread
        y += tallest + max(_words_high(cell, letters) for cell in row) + gap
    return placed if y - gap <= high else None


def _lines(one: Printed, longest: float) -> tuple[tuple[str, ...], int]:
    """Number and name, then how many to cut of what; and how many lines the name takes."""
    name = tuple(fitted(f"{one.row.number} {one.name}", longest, heavy=True).split("\n"))
    cuts = [fitted(f"{count} in {material.lower()}", max(longest, 28.0)) for material, count in one.row.cuts]
    return (*name, *(line for words in cuts for line in words.split("\n"))), len(name)


def _some(one: Printed, letters: Sequence[str]) -> bool:
    return len(letters) > 1 and set(one.row.views) != set(letters)


def _marks_wide(letters: Sequence[str]) -> float:
    return len(letters) * (millimetres("branches", "square") + millimetres("map", "between"))


def _words_high(cell: Cell, letters: Sequence[str]) -> float:
    more = millimetres("branches", "square") + 1.0 if _some(cell.one, letters) else 0.0
    return 1.2 + millimetres("words", "leading") * len(cell.lines) + BELOW * points("words", "size") + more


def _sheet(cells: list[Cell], part: int, letters: Sequence[str], size: str) -> Drawing:
    wide = millimetres("strip", "wide")
    high = max(cell.y + cell.high + _words_high(cell, letters) for cell in cells)
    names = listed(dict.fromkeys(cell.one.name for cell in cells))
    shows = f"All pieces at one scale: {names}."
    drawing = svg.document(wide, high, shows)
    plain: list[Label] = []
    heavy: list[Label] = []
    for cell in cells:
        left, top, _, _ = cell.one.box
        spot = 1 / part, cell.x - left / part + 0.2, cell.y - top / part
        ink_printed(drawing, cell.one.shape, cell.one.cloth, spot)
        leading, y = millimetres("words", "leading"), cell.y + cell.high + 0.6
        for at, line in enumerate(cell.lines, 1):
            (heavy if at <= cell.names else plain).append(Label(line, cell.x, y + at * leading, "start"))
        if _some(cell.one, letters):
            y += leading * len(cell.lines) + BELOW * points("words", "size") + 0.6
            _squares(drawing, cell, letters, y)
    for labels, weight in ((plain, 0), (heavy, look()["words"]["heavy"])):
        if labels:
            words = svg.words(drawing, tuple(labels))
            if weight:
                words["font-weight"] = weight
            drawing.add(words)
    sized = f" in size {size}" if size else ""
    caption = f"All pieces{sized}, at one scale: 1 to {part}"
    if any(cell.one.shape.fold is not None for cell in cells):
        caption += ". A double line lies on the fold of the fabric"
    return Drawing(named("pieces", drawing.tostring()), drawing.tostring(), wide, round(high, 2), True, shows, caption)


def _squares(drawing: Any, cell: Cell, letters: Sequence[str], y: float) -> None:
    """Filled with its letter when the piece is for the view, open when not."""
    side, edge = millimetres("branches", "square"), points("map", "open")
    number = svg.number
    words = []
    for at, letter in enumerate(letters):
        x = cell.x + at * (side + millimetres("map", "between"))
        if letter in cell.one.row.views:
            drawing.add(
                drawing.rect(
                    (number(x), number(y)), (number(side), number(side)), fill=colour("branches", "mark_colour")
                )
            )
            letter = cut(letter, side, heavy=True)
            words.append(Label(letter, x + side / 2, y + side / 2 + points("words", "size") * 0.33, "middle"))
            continue
        corner, inner = (number(x + edge / 2), number(y + edge / 2)), number(side - edge)
        made = drawing.rect(corner, (inner, inner), fill="none", stroke=colour("map", "open_colour"))
        made["stroke-width"] = number(edge)
        drawing.add(made)
    if words:
        made = svg.words(drawing, tuple(words))
        made["fill"], made["font-weight"] = colour("branches", "paper_colour"), look()["words"]["heavy"]
        drawing.add(made)
