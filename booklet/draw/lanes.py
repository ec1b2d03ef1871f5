"""Where everything of the figure of the views stands: rows down the paper, lanes across it, and columns of rows."""

from __future__ import annotations

from typing import NamedTuple

from booklet.draw.ink import look, millimetres
from booklet.draw.letters import cut, fitted, width
from booklet.plan.plan import Branches, Parting, Run
from booklet.plan.steps import dashed

# What stands on the line of all views.
ALL = "all"
# How many columns does a page hold, and how many of its heights may a phone show? Our choice: more helps nobody.
_MOST = 3


class Grid(NamedTuple):
    """Across one column, in millimetres from its left edge.

    sections: the width of the sections' titles; numbers: where the steps' numbers end; trunk: the middle of the line of
    all views; lanes: the middle of each view's; titles: where the titles of the steps begin, and their width, or None.
    """

    wide: float
    sections: float
    numbers: float
    trunk: float
    lanes: dict[str, float]
    titles: tuple[float, float] | None


class Row(NamedTuple):
    """One run of steps; y is its middle. title: of the section that it begins, on one line or two."""

    run: Run
    shared: bool
    y: float
    title: str


class Fork(NamedTuple):
    """The part of a parting that stands in one column. leaves, meets: whether its beginning and its end stand there.

    above, below: the middles of the shared rows before and behind it, or the ends of the column.
    """

    parting: Parting
    rows: tuple[Row, ...]
    leaves: bool
    meets: bool
    above: float
    below: float


class Column(NamedTuple):
    rows: tuple[Row, ...]
    forks: tuple[Fork, ...]
    high: float


class Sheet(NamedTuple):
    grid: Grid
    columns: tuple[Column, ...]
    wide: float
    high: float


def mark_width(words: str) -> float:
    return max(millimetres("branches", "square"), width(words, heavy=True) + 1.6)


def lettered(branches: Branches) -> dict[str, str]:
    """What stands in a view's squares: its letter, or the beginning of a longer name."""
    return {letter: cut(letter, 12, heavy=True) for letter in branches.views}


def lay_out(branches: Branches, narrow: bool) -> Sheet | None:
    """The sheet at 147 mm, or narrow for a phone; None where it would be larger than a page.

    A long pattern takes two columns or three, in which the titles of its steps give way.
    """
    longest = millimetres("branches", "longest")
    if narrow:
        grid = _grid(branches, None)
        sheet = _sheet(branches, grid, 1, _filled(branches, grid, float("inf")))
        return sheet if sheet.high <= longest * _MOST else None
    for count in range(1, _MOST + 1):
        gap = millimetres("branches", "column_gap")
        wide = (millimetres("strip", "wide") - gap * (count - 1)) / count
        grid = _grid(branches, wide)
        if grid.wide > wide:
            return None
        columns = _filled(branches, grid, longest)
        if len(columns) <= count:
            return _sheet(branches, grid, count, columns)
    return None


def _sheet(branches: Branches, grid: Grid, count: int, columns: list[list[int]]) -> Sheet:
    made = tuple(_column(branches, grid, indexes) for indexes in columns)
    wide = grid.wide * count + millimetres("branches", "column_gap") * (count - 1)
    return Sheet(grid, made, wide, max(column.high for column in made))


def _grid(branches: Branches, wide: float | None) -> Grid:
    """wide: of the column; None for the narrow form, which is as wide as its lanes make it."""
    table = look()["branches"]
    gap = table["gap"]
    numbers = max(width(dashed(list(run.numbers))) for run in branches.runs)
    trunk, mark = mark_width(ALL), max(mark_width(words) for words in lettered(branches).values())
    pitch = max(mark + table["between"], min(table["pitch"], 30 / len(branches.views)))
    lanes = gap + trunk + gap + pitch * (len(branches.views) - 1) + mark
    sections_said = {run.section for run in branches.runs}
    natural = max(width(fitted(title, table["titles"], heavy=True), heavy=True) for title in sections_said)
    room = (table["narrow"] if wide is None else wide) - gap - numbers - lanes
    sections = max(table["sections_least"], min(table["sections"], natural, room))
    at = sections + gap + numbers + gap
    first = at + trunk + gap + mark / 2
    end = first + pitch * (len(branches.views) - 1) + mark / 2
    titles = None
    if wide is not None and wide - end - gap >= table["titles"]:
        titles = (end + gap, wide - end - gap)
    across = max(end, table["narrow"]) if wide is None else max(end, wide)
    places = {letter: first + pitch * index for index, letter in enumerate(branches.views)}
    return Grid(across, sections, at - gap, at + trunk / 2, places, titles)


def _is_shared(branches: Branches, run: Run) -> bool:
    return run.views == branches.views


def _step_down(branches: Branches, grid: Grid, index: int) -> float:
    """From the middle of the row before to the middle of this one."""
    table = look()["branches"]
    before, run = branches.runs[index - 1], branches.runs[index]
    down: float = table["row"]
    if _is_shared(branches, before) != _is_shared(branches, run):
        down = table["part"]
    if run.begins:
        down = max(down, table["row"] + table["section"])
        if before.begins and "\n" in _title(grid, before):
            down = max(down, table["row"] + table["section"] + millimetres("words", "leading"))
    return down


def _title(grid: Grid, run: Run) -> str:
    return fitted(run.section, grid.sections, heavy=True)


def _top(branches: Branches, index: int) -> float:
    """From the top of a column to the middle of its first row."""
    table = look()["branches"]
    half: float = table["square"] / 2
    parts = not _is_shared(branches, branches.runs[index]) and _may_begin(branches, index)
    return half + float(table["begin"] + table["bend"] if parts else table["section"])


def _may_begin(branches: Branches, index: int) -> bool:
    """A column had better begin where all views are together, so that what has parted meets in the same column."""
    return index == 0 or _is_shared(branches, branches.runs[index - 1])


def _filled(branches: Branches, grid: Grid, longest: float) -> list[list[int]]:
    """The rows of each column. One that would end amid a parting gives its last rows to the next, up to a third."""
    table = look()["branches"]
    foot = table["square"] / 2 + max(table["section"], millimetres("words", "leading"))
    columns: list[list[int]] = [[]]
    high = 0.0
    for index in range(len(branches.runs)):
        down = _step_down(branches, grid, index) if columns[-1] else _top(branches, index)
        if columns[-1] and high + down + foot > longest:
            mine = columns[-1]
            last = [*mine[len(mine) * 2 // 3 :], index]
            begin = next((at for at in reversed(last) if _may_begin(branches, at)), index)
            columns[-1:] = [[at for at in mine if at < begin], [at for at in mine if at >= begin]]
            moved = [*columns[-1], index]
            high = _top(branches, begin) + sum(_step_down(branches, grid, at) for at in moved[1:])
        else:
            high += down
        columns[-1].append(index)
    return columns


def _column(branches: Branches, grid: Grid, indexes: list[int]) -> Column:
    table = look()["branches"]
    y, rows = 0.0, []
    for place, index in enumerate(indexes):
        run = branches.runs[index]
        y += _step_down(branches, grid, index) if place else _top(branches, index)
        rows.append(Row(run, _is_shared(branches, run), y, _title(grid, run) if run.begins or not place else ""))
    first, end = indexes[0], indexes[-1] + 1
    second = millimetres("words", "leading") if "\n" in rows[-1].title else 0.0
    goes_on = end < len(branches.runs)
    high = y + table["square"] / 2 + max(second, table["section"] if goes_on else 0.3)
    forks = tuple(
        _fork(parting, rows, first, high)
        for parting in branches.partings
        if parting.first < end and parting.end > first
    )
    return Column(tuple(rows), forks, high)


def _fork(parting: Parting, rows: list[Row], first: int, high: float) -> Fork:
    """rows: of the column, the first of them that of the run `first`."""
    begin, end = parting.first - first, parting.end - first
    return Fork(
        parting,
        rows=tuple(rows[max(begin, 0) : end]),
        leaves=begin >= 0,
        meets=end < len(rows),
        above=rows[begin - 1].y if begin > 0 else 0.0,
        below=rows[end].y if end < len(rows) else high,
    )
