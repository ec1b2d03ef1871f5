"""Figures of the pieces, every one of the demos, read back from their SVG: words stand over nothing, sizes hold.

The type is measured by fontTools, lines and areas by shapely, neither as the drawing does it.
"""

from __future__ import annotations

import re
import statistics
from collections.abc import Iterator
from functools import cache
from typing import Any
from xml.etree import ElementTree

import pytest
from shapely import LineString, Point, box, intersects

from booklet.draw.drawing import Drawing
from booklet.draw.flat.picture import draw_picture
from booklet.draw.key import draw_key
from booklet.plan.key import key_of
from booklet.plan.picture import StepFigure
from tests.draw.flat_figures import DEMOS, asked
from tests.draw.reading import SVG, advance

Line = list[tuple[float, float]]


@cache
def figures(name: str) -> dict[StepFigure, Drawing]:
    """What is drawn of one demo."""
    wanted, shapes = asked(name)
    drawn = {figure: draw_picture(figure, shapes) for figure in wanted}
    return {figure: drawing for figure, drawing in drawn.items() if drawing is not None}


def lines_and_words(svg: str) -> tuple[list[Line], list[tuple[str, Any]]]:
    """Every line that is inked, and every word with the rectangle of its letters (x-height and what rises above)."""
    lines: list[Line] = []
    words: list[tuple[str, Any]] = []
    for element, (right, down) in placed(ElementTree.fromstring(svg), (0.0, 0.0)):
        if element.tag == f"{SVG}path" and element.get("stroke", "none") != "none":
            found = path_lines(element.get("d", ""))
            # Dots and diagonals of a hatch are tone, and stand away from words by their own rule.
            if element.get("stroke") not in hatches():
                lines += [[(x + right, y + down) for x, y in line] for line in found]
        elif element.tag == f"{SVG}circle" and element.get("stroke", "none") != "none":
            centre = Point(float(element.get("cx", "")) + right, float(element.get("cy", "")) + down)
            lines.append(list(centre.buffer(float(element.get("r", ""))).exterior.coords))
        elif element.tag == f"{SVG}g" and element.get("class") == "figure-words":
            size = float(element.get("font-size", ""))
            for text in element:
                said = text.text or ""
                wide = advance(said) * size
                x, y = float(text.get("x", "")) + right, float(text.get("y", "")) + down
                x -= {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
                words.append((said, box(x, y - 0.70 * size, x + wide, y + 0.22 * size)))
    return lines, words


@cache
def hatches() -> frozenset[str]:
    return frozenset({"#4a4a4a"})


def placed(element: ElementTree.Element, at: tuple[float, float]) -> Iterator[tuple[ElementTree.Element, Any]]:
    """Every element with how far it is moved."""
    move = re.fullmatch(r"translate\((-?[\d.]+)[ ,]+(-?[\d.]+)\)", element.get("transform", ""))
    if move:
        at = at[0] + float(move[1]), at[1] + float(move[2])
    yield element, at
    for child in element:
        yield from placed(child, at)


def path_lines(data: str) -> list[Line]:
    """Straight lines only: M, L, H, V and Z, absolute, which is all that these figures use."""
    lines: list[Line] = []
    for command, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", data):
        values = [float(number) for number in numbers.replace(",", " ").split()]
        if command == "M":
            lines.append([(values[0], values[1])])
        elif command == "L":
            lines[-1] += list(zip(values[::2], values[1::2], strict=True))
        elif command in "HV":
            x, y = lines[-1][-1]
            lines[-1] += [(value, y) if command == "H" else (x, value) for value in values]
        else:
            assert command == "Z", command
            lines[-1].append(lines[-1][0])
    return lines


@pytest.mark.parametrize("name", DEMOS)
def test_no_word_stands_on_a_line_or_on_another_word(name: str) -> None:
    """In any figure of the pieces: the letters' rectangles meet no ink and not each other."""
    drawn = figures(name)
    assert len(drawn) > 20
    seen = 0
    for figure, drawing in drawn.items():
        lines, words = lines_and_words(drawing.svg)
        seen += len(words)
        where = f"{figure.caption}: {figure.shows}"
        ink = [LineString(line) for line in lines if len(line) > 1]
        for at, (said, around) in enumerate(words):
            struck = [str(line) for line, hit in zip(ink, intersects(around, ink), strict=True) if hit]
            assert not struck, f"“{said}” is struck by {struck[0]} in {where}"
            for other, beside in words[at + 1 :]:
                assert not around.intersects(beside), f"“{said}” and “{other}” meet in {where}"
    assert seen > len(drawn) / 2


@pytest.mark.parametrize("name", DEMOS)
def test_everything_lies_inside_the_canvas_and_no_figure_is_wider_than_its_column(name: str) -> None:
    """62 mm is the step's right column, 147 mm both: look.md."""
    for figure, drawing in figures(name).items():
        assert drawing.width_mm <= (147.0 if drawing.wide else 62.0), figure.shows
        assert drawing.height_mm <= 90.0, figure.shows
        lines, words = lines_and_words(drawing.svg)
        canvas = box(0, 0, drawing.width_mm, drawing.height_mm).buffer(0.02)
        assert all(canvas.contains(around) for _, around in words), figure.shows
        assert all(canvas.contains(LineString(line)) for line in lines if len(line) > 1), figure.shows


@pytest.mark.parametrize("name", DEMOS)
def test_words_are_few(name: str) -> None:
    """At most six words to a label: look.md."""
    for drawing in figures(name).values():
        assert all(len(said.split()) <= 6 for said, _ in lines_and_words(drawing.svg)[1])


def test_figures_are_small() -> None:
    """The median is under 15 kB, and none is over 40."""
    sizes = [len(drawing.svg) for name in DEMOS for drawing in figures(name).values()]
    assert statistics.median(sizes) < 15_000
    assert max(sizes) < 40_000


@pytest.mark.parametrize("name", DEMOS)
def test_the_same_figure_is_the_same_bytes(name: str) -> None:
    """Drawn a second time from outlines read anew, in the opposite order."""
    first = figures(name)
    _, shapes = asked(name)
    for figure in reversed(first):
        assert draw_picture(figure, shapes) == first[figure]


def test_the_key_has_a_row_and_a_swatch_for_what_these_figures_use() -> None:
    """A clipped and basted garment's key says so; a tote without a clip has no such row; each row has its swatch."""
    rows = {name: [row.kind for row in key_of(figures(name))] for name in DEMOS}
    assert {"clip", "basting", "notch", "hidden edge", "cut here", "zigzag"} <= set(rows["saltmarsh-tunic"])
    assert "clip" not in rows["lantern-tote"]
    assert "centre line" not in rows["lantern-tote"]
    assert "centre line" in [row.kind for row in key_of(figures("lantern-tote"), {"lining"})]
    for kinds in rows.values():
        swatches = [draw_key(kind).svg for kind in kinds]
        assert len(set(swatches)) == len(swatches) > 6
