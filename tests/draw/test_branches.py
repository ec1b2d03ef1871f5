"""The figure of the views, read back from its SVG: nothing overlaps, and each line leads through its view's steps."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations, groupby, pairwise
from typing import NamedTuple
from xml.etree import ElementTree

import pytest
from fontTools.ttLib import TTFont

from booklet.draw.branches import draw_branches
from booklet.draw.drawing import Drawing
from booklet.plan.plan import Branches
from tests.draw.reading import FONT, SVG, Box, meet
from tests.plan.branching import branches
from tests.plan.small import DEMOS, demo

POINT = 25.4 / 72
EIGHT = tuple("ABCDEFGH")
# Invented: what a demo has not. Crossing ties, a beginning and an end apart, no shared step, names, columns.
PATTERNS: dict[str, tuple[str, tuple[str, ...]]] = {
    "crossing": ("AC B AC * AC B | B AC B * | C B", ("A", "B", "C")),
    "eight views": ("* AB C D * EFGH A | H H A AC * | * * A B * AH BG | A", EIGHT),
    "nothing shared": ("A B A | B A", ("A", "B")),
    "names": ("* Short * Long | Long+Short * Very-long-name-indeed", ("Short", "Long", "Very-long-name-indeed")),
    "two columns": ("* A | * A * B A | B * * AB | " * 4, ("A", "B", "C")),
    "a column inside a parting": (("A B C AB | C A B C A " * 6) + "*", ("A", "B", "C")),
}
WIDTHS = [False, True]


@cache
def planned(name: str) -> Branches:
    made = demo(name).plan.branches if name in DEMOS else branches(*PATTERNS[name])
    assert made is not None
    return made


@cache
def drawn(name: str, narrow: bool) -> Drawing:
    made = draw_branches(planned(name), narrow)
    assert made is not None
    return made


class Said(NamedTuple):
    words: str
    box: Box
    fill: str


class Column(NamedTuple):
    """marks: a filled box and the words in it; words: all others; strokes: the ends and bends of every line by kind."""

    marks: list[tuple[str, Box]]
    words: list[Said]
    strokes: dict[str, list[list[tuple[float, float]]]]


@cache
def columns(name: str, narrow: bool) -> list[Column]:
    root = ElementTree.fromstring(drawn(name, narrow).svg)
    return [_column(group) for group in root.findall(f"{SVG}g[@class='branches-column']")]


def _column(group: ElementTree.Element) -> Column:
    right = float(re.findall(r"-?[\d.]+", group.get("transform", ""))[0])
    boxes, texts, strokes = [], [], {}
    for part in group:
        kind = part.get("class", "").removeprefix("figure-")
        for box in part.findall(f"{SVG}rect"):
            x, y, wide, high = (float(box.get(key, "")) for key in ("x", "y", "width", "height"))
            boxes.append((x + right, y, x + right + wide, y + high))
        texts += [_said(text, part, right) for text in part.findall(f"{SVG}text")]
        if paths := part.findall(f"{SVG}path"):
            runs = [run for path in paths for run in path.get("d", "").split("M")[1:]]
            strokes[kind] = [points(f"M{run}", right) for run in runs]
    marks = [(said.words, box) for box in boxes for said in texts if said.fill == "#ffffff" and inside(said.box, box)]
    assert len(marks) == len(boxes)
    return Column(marks, [said for said in texts if said.fill != "#ffffff"], strokes)


def _said(text: ElementTree.Element, group: ElementTree.Element, right: float) -> Said:
    size = float(group.get("font-size", ""))
    wide = advance(text.text or "", group.get("font-weight") == "600") * size
    x, y = float(text.get("x", "")) + right, float(text.get("y", ""))
    x -= {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
    return Said(text.text or "", (x, y - 0.7 * size, x + wide, y + 0.22 * size), group.get("fill", ""))


@cache
def _font(heavy: bool) -> tuple[dict[int, str], dict[str, tuple[int, int]], int]:
    font = TTFont(FONT.with_name("SourceSans3-Semibold.ttf") if heavy else FONT)
    return font.getBestCmap(), font["hmtx"].metrics, font["head"].unitsPerEm


def advance(words: str, heavy: bool) -> float:
    """In ems; every letter must be in the bundled type."""
    names, metrics, em = _font(heavy)
    return sum(metrics[names[ord(letter)]][0] for letter in words) / em


def points(data: str, right: float) -> list[tuple[float, float]]:
    """Every end of a run or a bend."""
    x = y = 0.0
    found = []
    for command, numbers in re.findall(r"([MVHA])([^MVHA]*)", data):
        values = [float(number) for number in numbers.split()]
        x = {"V": x, "H": values[0]}.get(command, values[-2] if len(values) > 1 else x)
        y = {"H": y, "V": values[0]}.get(command, values[-1])
        found.append((x + right, y))
    return found


def inside(box: Box, other: Box) -> bool:
    return box[0] >= other[0] and box[1] >= other[1] and box[2] <= other[2] and box[3] <= other[3]


def runs_at(name: str, column: Column) -> list[tuple[float, str]]:
    """The height of each row, and the numbers of its steps."""
    found = [(said.box[3], said.words) for said in column.words if re.fullmatch(r"[\d–]+", said.words)]
    return sorted(found)


@pytest.mark.parametrize("narrow", WIDTHS)
@pytest.mark.parametrize("name", [*DEMOS, *PATTERNS])
def test_no_words_meet_other_words_or_a_square_or_a_line(name: str, narrow: bool) -> None:
    """But the letters in their own squares."""
    for column in columns(name, narrow):
        boxes = [said.box for said in column.words]
        assert not [pair for pair in combinations(boxes, 2) if meet(*pair)]
        marks = [box for _, box in column.marks]
        assert not [pair for pair in combinations(marks, 2) if meet(*pair)]
        assert not [(box, mark) for box in boxes for mark in marks if meet(box, mark)]
        for paths in column.strokes.values():
            for path in paths:
                for (x0, y0), (x1, y1) in pairwise(path):
                    line = (min(x0, x1) - 0.1, min(y0, y1) - 0.1, max(x0, x1) + 0.1, max(y0, y1) + 0.1)
                    assert not [box for box in boxes if meet(line, box)]


@pytest.mark.parametrize("narrow", WIDTHS)
@pytest.mark.parametrize("name", [*DEMOS, *PATTERNS])
def test_everything_stands_on_the_paper(name: str, narrow: bool) -> None:
    """At most 147 mm wide and 185 high, so that it fits the column across and one page of Letter or A4 (look.md)."""
    drawing = drawn(name, narrow)
    if not narrow:
        assert drawing.width_mm == 147
        assert drawing.height_mm <= 185
    for column in columns(name, narrow):
        for box in [*(said.box for said in column.words), *(box for _, box in column.marks)]:
            assert inside(box, (-0.01, 0, drawing.width_mm + 0.01, drawing.height_mm))
        for paths in column.strokes.values():
            for x, y in (point for path in paths for point in path):
                assert 0 <= x <= drawing.width_mm + 0.01
                assert 0 <= y <= drawing.height_mm + 0.01


@pytest.mark.parametrize("narrow", WIDTHS)
@pytest.mark.parametrize("name", [*DEMOS, *PATTERNS])
def test_the_squares_of_a_view_are_its_steps(name: str, narrow: bool) -> None:
    """A row has a square for each view that sews it and no other, or one for all."""
    made = planned(name)
    rows = [
        (label, [words for words, box in column.marks if box[1] < bottom < box[3]])
        for column in columns(name, narrow)
        for bottom, label in runs_at(name, column)
    ]
    assert len(rows) == len(made.runs)
    for run, (label, marks) in zip(made.runs, rows, strict=True):
        assert re.split("[–]", label)[0] == str(run.numbers[0])
        assert re.split("[–]", label)[-1] == str(run.numbers[-1])
        if run.views == made.views:
            assert marks == ["all"]
        else:
            assert len(marks) == len(run.views)
            assert all(view.startswith(mark.rstrip("…")) for view, mark in zip(run.views, marks, strict=True))


@pytest.mark.parametrize("name", [*DEMOS, "crossing", "eight views"])
def test_a_line_leads_each_view_from_where_branches_leave_to_where_they_meet(name: str) -> None:
    """It begins and ends at a square of all views, and goes through every square of its view between."""
    made = planned(name)
    (column,) = columns(name, False)
    trunk = {round(sum(box[::2]) / 2, 1) for words, box in column.marks if words == "all"}
    assert len(trunk) == 1
    (x,) = trunk
    paths = [path for path in column.strokes["lanes"] if len(path) > 2]
    forks = [list(mine) for _, mine in groupby(paths, key=lambda path: path[0][1])]
    for parting, mine in zip(made.partings, forks, strict=True):
        own = made.runs[parting.first : parting.end]
        for path, letter in zip(mine, parting.each, strict=True):
            (_, begin), (end_x, end) = path[0], path[-1]
            lane = max(path)[0]
            squares = [box for words, box in column.marks if words == letter and begin < box[1] < end]
            assert len(squares) == sum(letter in run.views for run in own)
            assert all(box[0] < lane < box[2] for box in squares)
            shared = [box for words, box in column.marks if words == "all"]
            assert (parting.after is None) == (not any(box[1] < begin < box[3] for box in shared))
            assert (parting.until is not None) == any(box[1] < end < box[3] for box in shared)
            assert abs(path[0][0] - x) < 0.1
            assert (abs(end_x - x) < 0.1) == (parting.until is not None)


@pytest.mark.parametrize("narrow", WIDTHS)
@pytest.mark.parametrize("name", DEMOS)
def test_black_and_greys_alone_at_one_size_of_type(name: str, narrow: bool) -> None:
    """The spot colour is for stitching; words are 7.5 pt, 4.5 to 1 on white, and lines that mean something 3 to 1
    (WCAG 2.2, 1.4.3 and 1.4.11). The hairlines between sections only part."""
    text = drawn(name, narrow).svg
    inks = set(re.findall(r"#[0-9a-fA-F]{6}", text))
    assert all(ink[1:3] == ink[3:5] == ink[5:7] for ink in inks)
    assert {float(size) for size in re.findall(r'font-size="([\d.]+)"', text)} == {round(7.5 * POINT, 2)}
    for group in ElementTree.fromstring(text).iter(f"{SVG}g"):
        if group.get("class") in ("figure-lanes", "figure-ties", "figure-trunk"):
            assert contrast(group.get("stroke", "")) >= 3
        if group.get("class") == "figure-words" and group.get("fill") != "#ffffff":
            assert contrast(group.get("fill", "")) >= 4.5


def contrast(grey: str) -> float:
    """On white. Source: WCAG 2.2, relative luminance and contrast ratio."""
    part = int(grey[1:3], 16) / 255
    return 1.05 / ((part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4) + 0.05)


@pytest.mark.parametrize("name", DEMOS)
def test_its_title_says_the_same(name: str) -> None:
    """The first child of the drawing: every sentence of the plan."""
    drawing = drawn(name, False)
    title = ElementTree.fromstring(drawing.svg)[0]
    assert title.tag == f"{SVG}title"
    assert title.text == drawing.shows
    assert all(sentence in drawing.shows for sentence in planned(name).says)


def test_the_same_bytes_twice() -> None:
    assert draw_branches(planned(DEMOS[0])) == draw_branches(planned(DEMOS[0]))


def test_nothing_is_drawn_where_every_step_is_for_every_view() -> None:
    assert draw_branches(branches("* * | *")) is None


def test_nothing_is_drawn_that_a_page_would_not_hold() -> None:
    """2,000 branches, or more lanes than the column is wide."""
    long = branches("* A B AC * " * 2000)
    assert draw_branches(long) is None
    assert draw_branches(long, narrow=True) is None
    views = tuple(f"V{number}" for number in range(40))
    assert draw_branches(branches("* V7 *", views)) is None


def test_a_column_begins_where_all_views_are_together() -> None:
    """So that what leaves in a column meets in it."""
    both = columns("two columns", False)
    assert len(both) == 2
    for column in both:
        (x,) = {round(sum(box[::2]) / 2, 1) for words, box in column.marks if words == "all"}
        paths = [path for path in column.strokes["lanes"] if path[-1][1] < max(box[1] for _, box in column.marks)]
        assert paths
        assert all(abs(path[0][0] - x) < 0.1 and abs(path[-1][0] - x) < 0.1 for path in paths)


def test_long_titles_are_cut_and_written_as_text() -> None:
    """What a writer wrote is escaped, and stays in its place."""
    made = branches("* A *")
    nasty = "<b>&{{ x }} " * 20
    runs = tuple(
        run._replace(section=nasty, steps=tuple((number, nasty) for number, _ in run.steps)) for run in made.runs
    )
    drawing = draw_branches(made._replace(runs=runs))
    assert drawing is not None
    root = ElementTree.fromstring(drawing.svg)
    for group in root.iter(f"{SVG}g"):
        for text in group.findall(f"{SVG}text"):
            said = _said(text, group, 0)
            assert said.box[2] <= 147.01
    assert "<b>" not in drawing.svg
