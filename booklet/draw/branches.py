"""The views side by side, as one drawing: which steps are mine?

From the top down in the order of sewing. What all views sew hangs on one strong line. Where they part, a rounded path
leaves it for each view that has steps of its own, with the view's square at each run of them; below they meet again.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.draw import svg
from booklet.draw.drawing import Drawing
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.lanes import ALL, lay_out, lettered, mark_width
from booklet.draw.letters import cut, width
from booklet.draw.place import Label
from booklet.draw.section import named
from booklet.plan.steps import dashed

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from booklet.draw.lanes import Column, Fork, Grid, Row, Sheet
    from booklet.plan.plan import Branches

# From the middle of a square to the base line of its letter, in sizes of type: half the height of a capital.
_DOWN = 0.33
_BETWEEN = "  …  "


def draw_branches(branches: Branches, narrow: bool = False) -> Drawing | None:
    """147 mm wide, and at most a page high; or narrow, for a phone, and as high as it comes to.

    None where no view has steps of its own, and where a page would not hold it: `branches.says` says it still.
    """
    sheet = lay_out(branches, narrow) if branches.partings else None
    if sheet is None:
        return None
    said = " ".join(("Which steps are for which view, from the first to the last.", *branches.says))
    drawing = svg.document(sheet.wide, sheet.high, said)
    _draw(drawing, sheet, lettered(branches))
    text = drawing.tostring()
    return Drawing(
        named("branches", text),
        text,
        sheet.wide,
        sheet.high,
        not narrow,
        said,
        f"From the top down, sew the steps at “{ALL}” and the steps at your view’s letter",
    )


def _draw(drawing: Any, sheet: Sheet, letters: Mapping[str, str]) -> None:
    for number, column in enumerate(sheet.columns):
        across = number * (sheet.grid.wide + millimetres("branches", "column_gap"))
        made = drawing.g(class_="branches-column", transform=f"translate({svg.number(across)} 0)")
        _rules(drawing, made, sheet.grid, column)
        _paths(drawing, made, sheet.grid, column, last=number == len(sheet.columns) - 1, first=not number)
        _marks(drawing, made, sheet.grid, column, letters)
        _words(drawing, made, sheet.grid, column)
        drawing.add(made)


def _rules(drawing: Any, into: Any, grid: Grid, column: Column) -> None:
    """A hairline between sections, beside the lanes and not over them."""
    air = millimetres("branches", "square") / 2 + millimetres("branches", "section") / 2
    data = ""
    for row in column.rows[1:]:
        if row.title:
            y = svg.number(row.y - air)
            data += f"M0 {y}H{svg.number(grid.numbers)}"
            if grid.titles:
                data += f"M{svg.number(grid.titles[0])} {y}H{svg.number(sum(grid.titles))}"
    if data:
        ink = {"stroke": colour("branches", "rule_colour"), "stroke_width": svg.number(points("branches", "rule"))}
        made = svg.group(drawing, "rules", **ink)
        made.add(drawing.path(data))
        into.add(made)


def _paths(drawing: Any, into: Any, grid: Grid, column: Column, *, first: bool, last: bool) -> None:
    """Ties between the squares of one row, then over them the lanes, then the line of all views."""
    lane, trunk = points("branches", "lane"), points("branches", "trunk")
    quiet = colour("branches", "lane_colour")
    ties = [_tie(grid, row) for row in column.rows if not row.shared and len(row.run.views) > 1]
    lanes = [path for fork in column.forks for path in _lanes(grid, column, fork)]
    passing = [path for fork in column.forks for path in _crossings(grid, fork)]
    _strokes(drawing, into, "ties", ties, quiet, lane)
    _strokes(drawing, into, "halo", passing, colour("branches", "paper_colour"), points("branches", "halo"))
    _strokes(drawing, into, "lanes", [*lanes, *passing], quiet, lane)
    strong = _trunk(grid, column, first=first, last=last)
    _strokes(drawing, into, "trunk", strong, colour("branches", "trunk_colour"), trunk)


def _strokes(drawing: Any, into: Any, kind: str, paths: Iterable[str], ink: str, weight: float) -> None:
    paths = list(dict.fromkeys(paths))
    if paths:
        made = svg.group(drawing, kind, stroke=ink, stroke_width=svg.number(weight))
        for data in paths:
            made.add(drawing.path(data))
        into.add(made)


def _tie(grid: Grid, row: Row) -> str:
    first, *_, last = (grid.lanes[view] for view in row.run.views)
    return f"M{svg.number(first)} {svg.number(row.y)}H{svg.number(last)}"


def _crossings(grid: Grid, fork: Fork) -> Iterable[str]:
    """A lane that goes on over the tie of two others."""
    for row in fork.rows:
        first, last = grid.lanes[row.run.views[0]], grid.lanes[row.run.views[-1]]
        for view in fork.parting.each:
            if view not in row.run.views and first < grid.lanes[view] < last and _lives(fork, view, row):
                yield f"M{svg.number(grid.lanes[view])} {svg.number(row.y - 1.2)}V{svg.number(row.y + 1.2)}"


def _lives(fork: Fork, view: str, row: Row) -> bool:
    """Whether the view's lane reaches down to the row: it ends with the view's last step where nothing follows."""
    return fork.parting.until is not None or fork.parting.each[view][-1] > row.run.numbers[0]


def _lanes(grid: Grid, column: Column, fork: Fork) -> Iterable[str]:
    number = svg.number
    bend, half = millimetres("branches", "bend"), millimetres("branches", "square") / 2
    first, last = fork.rows[0].y - half, fork.rows[-1].y + half
    for view in fork.parting.each:
        x = grid.lanes[view]
        rows = [row.y for row in fork.rows if view in row.run.views]
        if fork.leaves:
            top = first - 2 * bend
            data = (
                f"M{number(grid.trunk)} {number(fork.above)}V{number(top)}"
                f"A{number(bend)} {number(bend)} 0 0 0 {number(grid.trunk + bend)} {number(top + bend)}"
                f"H{number(x - bend)}A{number(bend)} {number(bend)} 0 0 1 {number(x)} {number(first)}"
            )
        else:
            data = f"M{number(x)} 0"
        if fork.meets:
            foot = last + 2 * bend
            data += (
                f"V{number(last)}A{number(bend)} {number(bend)} 0 0 1 {number(x - bend)} {number(last + bend)}"
                f"H{number(grid.trunk + bend)}"
                f"A{number(bend)} {number(bend)} 0 0 0 {number(grid.trunk)} {number(foot)}V{number(fork.below)}"
            )
        elif fork.parting.until is not None or fork.parting.each[view][-1] > fork.rows[-1].run.numbers[-1]:
            data += f"V{number(column.high)}"
        elif rows:
            data += f"V{number(rows[-1])}"
        yield data


def _trunk(grid: Grid, column: Column, *, first: bool, last: bool) -> Iterable[str]:
    """Between shared rows, and past the branches of others where a view has nothing of its own to sew."""
    x = svg.number(grid.trunk)
    for above, below in zip(column.rows, column.rows[1:], strict=False):
        if above.shared and below.shared:
            yield f"M{x} {svg.number(above.y)}V{svg.number(below.y)}"
    for fork in column.forks:
        if len(fork.parting.each) < len(grid.lanes) and fork.parting.until is not None:
            yield f"M{x} {svg.number(fork.above)}V{svg.number(fork.below)}"
    if column.rows[0].shared and not first:
        yield f"M{x} 0V{svg.number(column.rows[0].y)}"
    if column.rows[-1].shared and not last:
        yield f"M{x} {svg.number(column.rows[-1].y)}V{svg.number(column.high)}"


def _marks(drawing: Any, into: Any, grid: Grid, column: Column, letters: Mapping[str, str]) -> None:
    """Filled squares with white letters, as under the numbers of the steps."""
    squares = svg.group(drawing, "marks", stroke="none")
    squares["fill"] = colour("branches", "mark_colour")
    high = millimetres("branches", "square")
    labels = []
    wide = max(mark_width(words) for words in letters.values())
    for row in column.rows:
        marks = [(grid.trunk, ALL, mark_width(ALL))] if row.shared else []
        marks += [] if row.shared else [(grid.lanes[view], letters[view], wide) for view in row.run.views]
        for x, words, across in marks:
            corner = (svg.number(x - across / 2), svg.number(row.y - high / 2))
            squares.add(drawing.rect(corner, (svg.number(across), svg.number(high))))
            labels.append(Label(words, x, _base(row), "middle"))
    into.add(squares)
    into.add(_lettering(drawing, labels, colour("branches", "paper_colour"), heavy=True))


def _base(row: Row) -> float:
    return row.y + points("words", "size") * _DOWN


def _words(drawing: Any, into: Any, grid: Grid, column: Column) -> None:
    leading = millimetres("words", "leading")
    sections, numbers, titles = [], [], []
    for row in column.rows:
        for at, line in enumerate(row.title.split("\n") if row.title else []):
            sections.append(Label(line, 0, _base(row) + at * leading, "start"))
        numbers.append(Label(dashed(list(row.run.numbers)), grid.numbers, _base(row), "end"))
        if grid.titles:
            x, room = grid.titles
            titles.append(Label(_titles([title for _, title in row.run.steps], room), x, _base(row), "start"))
    into.add(_lettering(drawing, sections, colour("words"), heavy=True))
    into.add(_lettering(drawing, numbers, colour("words")))
    if titles:
        into.add(_lettering(drawing, titles, colour("branches", "quiet_colour")))


def _titles(titles: list[str], room: float) -> str:
    """One step's title; of several the first and the last, each cut to its share of the room."""
    if len(titles) == 1:
        return cut(titles[0], room)
    between = "; " if len(titles) == 2 else _BETWEEN
    room -= width(between)
    first, last = titles[0], titles[-1]
    if width(first) + width(last) > room:
        first = cut(first, max(room / 2, room - width(last)))
        last = cut(last, room - width(first))
    return f"{first}{between}{last}"


def _lettering(drawing: Any, labels: list[Label], ink: str, heavy: bool = False) -> Any:
    made = svg.words(drawing, tuple(labels))
    made["fill"] = ink
    if heavy:
        made["font-weight"] = look()["words"]["heavy"]
    return made
