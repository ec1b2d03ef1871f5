"""The pattern pieces in small, and all of them at one scale, read back from their SVG."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from typing import NamedTuple
from xml.etree import ElementTree

import pytest

from booklet.draw.drawing import Drawing
from booklet.draw.pieces import draw_pictures, draw_sheet
from booklet.pipeline import check_folder, edition_of
from booklet.plan.pieces import pieces_of
from booklet.plan.plan import PieceRow
from booklet.shape.figure_size import FigureShapes
from tests.draw.reading import SVG, Box, meet
from tests.draw.test_branches import advance
from tests.plan.small import DEMOS, STEPS

HIGH = 190.0


class Made(NamedTuple):
    rows: list[PieceRow]
    views: tuple[str, ...]
    shapes: FigureShapes
    sheet: Drawing
    pictures: dict[str, tuple[Drawing, ...]]


@cache
def made(name: str) -> Made:
    checked = check_folder(STEPS / name)
    assert checked.pattern is not None
    views, shapes = tuple(checked.pattern.views), edition_of(checked).shapes
    assert shapes is not None
    rows = pieces_of(checked.pattern, views)
    sheet = draw_sheet(rows, views, shapes, HIGH)
    assert sheet is not None
    return Made(rows, views, shapes, sheet, draw_pictures(rows, shapes))


class Read(NamedTuple):
    """pieces: the bounds of each, and the classes of what is drawn on it; words; squares: filled or not."""

    pieces: list[tuple[Box, list[str]]]
    words: list[tuple[str, Box]]
    squares: list[tuple[Box, bool]]


def read(svg: str) -> Read:
    root = ElementTree.fromstring(svg)
    found = Read([], [], [])
    for group in root.findall(f"{SVG}g"):
        paths = group.findall(f"{SVG}path")
        if group.get("class") == "figure-piece":
            numbers = [float(one) for one in re.findall(r"-?[\d.]+", paths[0].get("d", ""))]
            box = (min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2]))
            found.pieces.append((box, [path.get("class", "") for path in paths]))
        for text in group.findall(f"{SVG}text"):
            size = float(group.get("font-size", ""))
            wide = advance(text.text or "", group.get("font-weight") == "600") * size
            x, y = float(text.get("x", "")), float(text.get("y", ""))
            x -= wide / 2 if text.get("text-anchor") == "middle" else 0
            found.words.append((text.text or "", (x, y - 0.7 * size, x + wide, y + 0.22 * size)))
    for rect in root.findall(f"{SVG}rect"):
        x, y, wide, high = (float(rect.get(key, "")) for key in ("x", "y", "width", "height"))
        found.squares.append(((x, y, x + wide, y + high), rect.get("fill") != "none"))
    return found


@pytest.mark.parametrize("name", DEMOS)
def test_all_pieces_stand_on_the_page_and_nothing_overlaps(name: str) -> None:
    """Pieces, words and squares, but for the letters in their squares."""
    sheet, seen = made(name).sheet, read(made(name).sheet.svg)
    assert sheet.width_mm == 147
    assert sheet.height_mm <= HIGH
    squares = [box for box, _ in seen.squares]
    words = [
        box
        for _, box in seen.words
        if not any(box[0] > one[0] and box[2] < one[2] and meet(box, one) for one in squares)
    ]
    every = [*(box for box, _ in seen.pieces), *words, *squares]
    assert not [pair for pair in combinations(every, 2) if meet(*pair)]
    for left, top, right, bottom in every:
        assert left >= 0
        assert top >= 0
        assert right <= 147
        assert bottom <= sheet.height_mm


@pytest.mark.parametrize("name", DEMOS)
def test_they_are_at_one_scale_and_the_caption_says_which(name: str) -> None:
    """Each as wide and as high as its outline in the size of the figures; both fronts of the tunic are there."""
    rows, _, shapes, sheet, _ = made(name)
    part = int(re.findall(r"1 to (\d+)", sheet.caption)[0])
    wanted = []
    for row in rows:
        for fitting in shapes.fittings_of(row.name):
            shape = shapes.of(row.name, shapes.figure_size, fitting)
            assert shape is not None
            xs, ys = zip(*shape.cut, strict=True)
            wanted.append(((max(xs) - min(xs)) / part, (max(ys) - min(ys)) / part))
    boxes = [box for box, _ in read(sheet.svg).pieces]
    assert len(boxes) == len(wanted) == len(rows) + (name == "saltmarsh-tunic")
    for (left, top, right, bottom), (wide, high) in zip(boxes, wanted, strict=True):
        assert abs(right - left - wide) < 0.2
        assert abs(bottom - top - high) < 0.2


@pytest.mark.parametrize("name", DEMOS)
def test_every_piece_has_its_number_name_and_cuts(name: str) -> None:
    rows, views, _, sheet, _ = made(name)
    seen = read(sheet.svg)
    said = " ".join(word for word, _ in seen.words)
    for row in rows:
        assert f"{row.number} {row.name}" in said
        for material, count in row.cuts:
            assert f"{count} in {material.lower()}" in said
    apart = [row for row in rows if set(row.views) != set(views)]
    assert len(seen.squares) == len(apart) * len(views)
    assert sum(filled for _, filled in seen.squares) == sum(len(row.views) for row in apart)


@pytest.mark.parametrize("name", DEMOS)
def test_the_picture_of_a_piece_has_its_grain_fold_and_notches(name: str) -> None:
    """Where its outline has them; one picture for each fitting, which its caption names."""
    rows, _, shapes, _, pictures = made(name)
    for row in rows:
        drawn = pictures[row.name.lower()]
        fittings = shapes.fittings_of(row.name)
        assert [one.caption for one in drawn] == list(fittings)
        for fitting, drawing in zip(fittings, drawn, strict=True):
            shape = shapes.of(row.name, shapes.figure_size, fitting)
            assert shape is not None
            ((_, classes),) = read(drawing.svg).pieces
            assert ("grain" in classes) == (shape.grain is not None)
            assert ("fold" in classes) == (shape.fold is not None) == any("fold" in count for _, count in row.cuts)
            assert drawing.width_mm <= 18
            assert drawing.height_mm <= 13
            assert row.name in drawing.shows
    if name == "saltmarsh-tunic":
        assert [one.caption for one in pictures["front"]] == ["B cup", "D cup"]
        assert "notch" in read(pictures["front"][0].svg).pieces[0][1]


def test_the_same_bytes_twice() -> None:
    rows, views, shapes, sheet, pictures = made("lantern-tote")
    assert draw_sheet(rows, views, shapes, HIGH) == sheet
    assert draw_pictures(rows, shapes) == pictures
    assert draw_sheet([], views, shapes, HIGH) is None
