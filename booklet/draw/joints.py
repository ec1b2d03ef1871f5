"""Where everything of the map of the garment stands: pieces down the left, joints to the right of all that they join.

A lane's row lies above those of what flows into it, the nearest joint's first, so that no line crosses another.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.draw.ink import look, millimetres
from booklet.draw.letters import cut, fitted, width
from booklet.draw.place import Box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.plan.flow import GarmentMap, Joint, Lane


class Grid(NamedTuple):
    """Across the map: the pictures' width (0: none), where names begin and how wide they may be, where each view's
    square stands (its middle), where lanes begin; row: from row to row."""

    picture: float
    names: float
    names_wide: float
    marks: dict[str, float]
    lanes: float
    row: float


class Spot(NamedTuple):
    """A joint on paper: its middle, its size, its words line by line."""

    joint: Joint
    x: float
    y: float
    wide: float
    high: float
    words: tuple[str, ...]

    @property
    def box(self) -> Box:
        return Box(self.x - self.wide / 2, self.y - self.high / 2, self.x + self.wide / 2, self.y + self.high / 2)


class Row(NamedTuple):
    """A lane on paper. into: the joint at which it ends, or None; end: how far it runs to the right before it turns."""

    lane: Lane
    y: float
    spots: tuple[Spot, ...]
    into: Spot | None
    end: float


class Sheet(NamedTuple):
    grid: Grid
    rows: tuple[Row, ...]
    wide: float
    high: float


def lay_out(garment: GarmentMap, pictures: bool) -> Sheet | None:
    """147 mm wide and at most a page high; None where that would not hold it. pictures: whether there are any."""
    table = look()["map"]
    count = len(garment.every)
    top = table["top"]
    row = min(table["row" if pictures else "row_bare"], (table["longest"] - top) / count)
    if row < table["row_least"]:
        return None
    grid = _grid(garment, pictures and row >= table["row_picture"], row)
    columns = _columns(garment, grid, millimetres("strip", "wide") - table["end"])
    if columns is None:
        return None
    rows: list[Row] = []
    for lane in garment.lanes:
        _place(lane, None, columns, grid, top, rows)
    return Sheet(grid, tuple(rows), millimetres("strip", "wide"), top + row * count)


def _grid(garment: GarmentMap, pictures: bool, row: float) -> Grid:
    table = look()["map"]
    picture = table["picture"] if pictures else 0.0
    names = picture + (table["gap"] if pictures else 0.0)
    two = row >= 2 * millimetres("words", "leading") + 0.6
    longest = table["names"] if two else table["names"] * 1.3
    lines = [line for lane in garment.every for line in named(lane, longest, two)]
    notes = [note_of(lane, row, longest) for lane in garment.every]
    wide = max(map(width, (*lines, *notes)))
    at = names + wide + table["gap"]
    marks = {}
    if len(garment.views) > 1:
        square = millimetres("branches", "square")
        for letter in garment.views:
            mark = max(square, width(cut(letter, 12, heavy=True), heavy=True) + 1.6)
            marks[letter] = at + mark / 2
            at += mark + table["between"]
        at += table["gap"] - table["between"]
    return Grid(picture, names, longest if two else wide, marks, at, row)


def named(lane: Lane, longest: float, two: bool) -> list[str]:
    """The piece's name, on two lines where there is room."""
    name = lane.called[:1].upper() + lane.called[1:]
    return fitted(name, longest).split("\n") if two else [cut(" ".join(name.split()), longest)]


def note_of(lane: Lane, row: float, longest: float) -> str:
    """Under a name of one line, where rows are high enough: when it gets its interfacing."""
    if not lane.fused or row < millimetres("map", "row_note") or len(named(lane, longest, True)) > 1:
        return ""
    return cut(f"fused in step {', '.join(map(str, lane.fused))}", longest)


def words_of(joint: Joint) -> tuple[str, ...]:
    """Its number, or one for each of several views, with their letters."""
    if len(joint.steps) == 1:
        return (str(joint.steps[0][0]),)
    return tuple(f"{number} {' '.join(letters)}" for number, letters in joint.steps)


def size_of(joint: Joint) -> tuple[float, float]:
    """Wide, high."""
    words, least = words_of(joint), millimetres("map", "joint")
    more = millimetres("words", "leading") * (len(words) - 1)
    return max(least, max(width(line, heavy=True) for line in words) + 1.7), least + more


Columns = dict[int, float]


def _columns(garment: GarmentMap, grid: Grid, end: float) -> Columns | None:
    """The middle of each joint, by its id: as far left as what it joins allows, the rest of the room spread evenly."""
    levels: dict[int, int] = {}
    for lane in garment.lanes:
        _level(lane, levels)
    widest = [0.0] * (max(levels.values()) + 1)
    for joint in _joints(garment.lanes):
        widest[levels[id(joint)]] = max(widest[levels[id(joint)]], size_of(joint)[0])
    least = millimetres("map", "apart")
    room = end - grid.lanes - least - sum(widest) - least * len(widest)
    if room < 0:
        return None
    more = min(room / len(widest), millimetres("map", "furthest"))
    middles, x = [], grid.lanes
    for wide in widest:
        x += least + more
        middles.append(x + wide / 2)
        x += wide
    return {key: middles[level] for key, level in levels.items()}


def _joints(lanes: Sequence[Lane]) -> Iterator[Joint]:
    return (joint for main in lanes for lane in main.every() for joint in lane.joints)


def _level(lane: Lane, levels: dict[int, int]) -> int:
    """Of the lane's last joint, -1 where it has none."""
    level = -1
    for joint in lane.joints:
        level = 1 + max([level, *(_level(other, levels) for other in joint.enters)])
        levels[id(joint)] = level
    return level


def _place(lane: Lane, into: Spot | None, columns: Columns, grid: Grid, top: float, rows: list[Row]) -> None:
    y = top + grid.row * (len(rows) + 0.5)
    spots = tuple(Spot(joint, columns[id(joint)], y, *size_of(joint), words_of(joint)) for joint in lane.joints)
    end = into.x if into is not None else (spots[-1].box.right if spots else grid.lanes) + millimetres("map", "apart")
    rows.append(Row(lane, y, spots, into, end))
    for spot in spots:
        for other in sorted(spot.joint.enters, key=lambda one: _reach(one, columns)):
            _place(other, spot, columns, grid, top, rows)


def _reach(lane: Lane, columns: Columns) -> float:
    """How far right its last joint lies: what has none lies nearest, so that others need not go round it."""
    return columns[id(lane.joints[-1])] if lane.joints else 0.0
