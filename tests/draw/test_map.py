"""The map of the garment, read back from its SVG: nothing overlaps, no line crosses another, all stands on the page."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pytest

from booklet.draw.drawing import Drawing
from booklet.draw.map import draw_map
from booklet.pipeline import check_folder, edition_of
from booklet.plan.flow import GarmentMap, Joint, Lane
from booklet.plan.map import map_of
from booklet.shape.figure_size import FigureShapes
from tests.draw.reading import SVG, Box, meet
from tests.draw.test_branches import advance, contrast
from tests.plan.small import DEMOS, STEPS, demo

POINT = 25.4 / 72
PATTERNS = sorted((Path(__file__).parents[1] / "faults" / "patterns").iterdir())
FOLDERS = {folder.name: folder for folder in (*(STEPS / name for name in DEMOS), *PATTERNS)}


class Made(NamedTuple):
    garment: GarmentMap
    shapes: FigureShapes | None
    drawing: Drawing


def long(count: int) -> GarmentMap:
    """Invented: one trunk, with names of all lengths, a part of two pieces joined to it by every second step."""
    joints = []
    for at in range(1, count):
        inner = Joint(((2 * at - 1, ("A", "B")),), (lane(f"under piece {at}"),), f"part number {at}" * (1 + at % 2))
        entering = lane(f"piece with a rather long name {at}", (inner,), ("A",) if at % 3 else ("A", "B"))
        joints.append(Joint(((2 * at, entering.views),), (entering,), f"whole {at}" if at % 2 else ""))
    return GarmentMap(("A", "B"), (lane("base", tuple(joints)), lane("belt")), "Invented", ("It is invented.",))


def lane(name: str, joints: tuple[Joint, ...] = (), views: tuple[str, ...] = ("A", "B")) -> Lane:
    return Lane(name, name, name, "self", views, joints)


@cache
def made(name: str) -> Made:
    if name == "invented":
        garment, shapes = long(8), None
    elif name == "one view":
        alone = demo("saltmarsh-tunic").view_plan("A").map
        assert alone is not None
        garment, shapes = alone, None
    else:
        checked = check_folder(FOLDERS[name])
        benches = [bench for bench in checked.benches if not bench.left_out]
        mapped = map_of(benches[0].pattern, benches)
        assert mapped is not None
        garment, shapes = mapped, edition_of(checked).shapes
    drawing = draw_map(garment, shapes)
    assert drawing is not None
    return Made(garment, shapes, drawing)


NAMES = [*FOLDERS, "invented", "one view"]


class Read(NamedTuple):
    """lines: upright and level strokes of lanes and leaders by their class; pieces: the bounds of each picture."""

    words: list[tuple[str, Box, str]]
    joints: list[Box]
    squares: list[tuple[Box, bool]]
    lines: list[tuple[str, list[Box]]]
    pieces: list[Box]


@cache
def read(name: str) -> Read:
    root = ElementTree.fromstring(made(name).drawing.svg)
    found = Read([], [], [], [], [])
    for group in root.findall(f"{SVG}g"):
        kind = group.get("class", "").removeprefix("figure-")
        for rect in group.findall(f"{SVG}rect"):
            x, y, wide, high = (float(rect.get(key, "")) for key in ("x", "y", "width", "height"))
            if kind == "joints":
                found.joints.append((x, y, x + wide, y + high))
            else:
                found.squares.append(((x, y, x + wide, y + high), kind == "marks"))
        for at, path in enumerate(group.findall(f"{SVG}path")):
            if kind == "piece" and at:
                continue  # the hatch of a lining
            if kind == "piece":
                numbers = [float(one) for one in re.findall(r"-?[\d.]+", path.get("d", ""))]
                found.pieces.append((min(numbers[::2]), min(numbers[1::2]), max(numbers[::2]), max(numbers[1::2])))
            else:
                found.lines.append((kind, strokes(path.get("d", ""))))
        for text in group.findall(f"{SVG}text"):
            size = float(group.get("font-size", ""))
            wide = advance(text.text or "", group.get("font-weight") == "600") * size
            x, y = float(text.get("x", "")), float(text.get("y", ""))
            x -= {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
            box = (x, y - 0.7 * size, x + wide, y + 0.22 * size)
            found.words.append((text.text or "", box, group.get("fill", "")))
    return found


def strokes(data: str) -> list[Box]:
    """Every straight run and every bend of a path, as a box."""
    x = y = 0.0
    found = []
    for command, numbers in re.findall(r"([MHVA])([^MHVA]*)", data):
        values = [float(number) for number in numbers.split()]
        left, top = x, y
        x = values[0] if command == "H" else x if command == "V" else values[-2]
        y = values[0] if command == "V" else y if command == "H" else values[-1]
        if command != "M":
            found.append((min(left, x), min(top, y), max(left, x), max(top, y)))
    return found


def thick(box: Box, by: float = 0.05) -> Box:
    return (box[0] - by, box[1] - by, box[2] + by, box[3] + by)


def inside(box: Box, other: Box) -> bool:
    return box[0] >= other[0] and box[1] >= other[1] and box[2] <= other[2] and box[3] <= other[3]


@pytest.mark.parametrize("name", NAMES)
def test_nothing_overlaps(name: str) -> None:
    """Words, pictures, squares and joints keep clear of each other and of every line, but for the letters in their
    squares, the numbers in their joints, and the lines that lead to a joint."""
    seen = read(name)
    squares = [box for box, _ in seen.squares]
    holders = [*seen.joints, *squares]
    words = [box for _, box, _ in seen.words if not any(inside(box, holder) for holder in holders)]
    solid = [*words, *holders, *seen.pieces]
    assert not [pair for pair in combinations(solid, 2) if meet(*pair)]
    lines = [thick(box) for _, path in seen.lines for box in path]
    for box in (*words, *squares, *seen.pieces):
        assert not [line for line in lines if meet(line, box)]
    inner = [thick(joint, -0.8) for joint in seen.joints]
    for kind, path in seen.lines:
        if kind == "lanes":
            assert not [box for box in path[:-1] for joint in inner if meet(thick(box), joint) and box[1] != box[3]]


@pytest.mark.parametrize("name", NAMES)
def test_no_line_crosses_another(name: str) -> None:
    """Where two meet, one ends, or they lie on each other on their way to one joint."""
    paths = [path for kind, path in read(name).lines if kind in ("lanes", "trunk")]
    for one, other in combinations(paths, 2):
        for level in (box for box in one + other if box[1] == box[3]):
            for upright in (box for box in one + other if box[0] == box[2]):
                assert not (
                    level[0] + 0.1 < upright[0] < level[2] - 0.1 and upright[1] + 0.1 < level[1] < upright[3] - 0.1
                )


@pytest.mark.parametrize("name", NAMES)
def test_everything_stands_on_the_paper(name: str) -> None:
    """147 mm wide and at most 185 high: across both columns of a step, on one page of Letter or A4 (look.md)."""
    drawing, seen = made(name).drawing, read(name)
    assert drawing.wide
    assert drawing.width_mm == 147
    assert drawing.height_mm <= 185
    boxes = [*(box for _, box, _ in seen.words), *seen.joints, *(box for box, _ in seen.squares), *seen.pieces]
    for box in (*boxes, *(box for _, path in seen.lines for box in path)):
        assert inside(box, (0, 0, 147, drawing.height_mm))


@pytest.mark.parametrize("name", NAMES)
def test_a_joint_for_every_step_that_joins_with_its_number(name: str) -> None:
    garment, seen = made(name).garment, read(name)
    joints = [joint for each in garment.every for joint in each.joints]
    wanted = sorted(" ".join(str(number) for number, _ in joint.steps) for joint in joints)
    drawn = [[word for word, box, _ in seen.words if inside(box, joint)] for joint in seen.joints]
    assert sorted(" ".join(word.split()[0] for word in words) for words in drawn) == wanted
    entering = sum(len(joint.enters) for joint in joints)
    lanes = [path for kind, path in seen.lines if kind == "lanes"]
    assert len(lanes) == entering
    for path in lanes:
        x, top = path[-1][0], path[-1][1]
        assert [joint for joint in seen.joints if joint[0] < x < joint[2] and abs(joint[3] - top) < 0.02]


@pytest.mark.parametrize("name", NAMES)
def test_the_squares_of_a_piece_are_its_views(name: str) -> None:
    """In the row of its name, filled where the piece is for the view; none where there is one view only."""
    garment, seen = made(name).garment, read(name)
    filled = sorted(letter for each in garment.every for letter in each.views)
    letters = [word for word, box, fill in seen.words if fill == "#ffffff"]
    assert sorted(letters) == (filled if len(garment.views) > 1 else [])
    count = len(garment.every) * len(garment.views) if len(garment.views) > 1 else 0
    assert len(seen.squares) == count


@pytest.mark.parametrize("name", [*DEMOS, *(folder.name for folder in PATTERNS)])
def test_every_part_is_named_and_every_piece(name: str) -> None:
    garment, seen = made(name).garment, read(name)
    words = " ".join(word for word, _, _ in seen.words).lower()
    for each in garment.every:
        assert each.called.lower() in words
        for joint in each.joints:
            assert joint.makes.lower() in words or joint.makes.lower() in garment.title.lower()


@pytest.mark.parametrize("name", DEMOS)
def test_pieces_with_outlines_are_pictured(name: str) -> None:
    """And with names alone the map is the lower for it."""
    garment, shapes, drawing = made(name)
    assert shapes is not None
    assert len(read(name).pieces) == len(garment.every)
    bare = draw_map(garment)
    assert bare is not None
    assert bare.height_mm < drawing.height_mm
    assert len(drawing.svg) < 15_000


@pytest.mark.parametrize("name", NAMES)
def test_black_and_greys_alone_at_one_size_of_type(name: str) -> None:
    """Words are 4.5 to 1 on white, lines that mean something 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11)."""
    text = made(name).drawing.svg
    inks = set(re.findall(r"#[0-9a-fA-F]{6}", text))
    assert all(ink[1:3] == ink[3:5] == ink[5:7] for ink in inks)
    assert {float(size) for size in re.findall(r'font-size="([\d.]+)"', text)} == {round(7.5 * POINT, 2)}
    for group in ElementTree.fromstring(text).iter(f"{SVG}g"):
        if group.get("class") in ("figure-lanes", "figure-trunk", "figure-joints", "figure-leaders", "figure-open"):
            assert contrast(group.get("stroke", "")) >= 3
        if group.get("class") == "figure-words" and group.get("fill") != "#ffffff":
            assert contrast(group.get("fill", "")) >= 4.5


@pytest.mark.parametrize("name", DEMOS)
def test_its_title_says_the_same(name: str) -> None:
    garment, _, drawing = made(name)
    title = ElementTree.fromstring(drawing.svg)[0]
    assert title.tag == f"{SVG}title"
    assert title.text == drawing.shows
    assert all(sentence in drawing.shows for sentence in garment.says)


def test_the_same_bytes_twice() -> None:
    garment, shapes, drawing = made("lantern-tote")
    assert draw_map(garment, shapes) == drawing


def test_nothing_is_drawn_that_a_page_would_not_hold() -> None:
    """More pieces than rows, or more joints one after the other than there is room for."""
    assert draw_map(long(40)) is None
    stops = tuple(Joint(((number, ("A", "B")),), (), f"part {number}") for number in range(1, 30))
    assert draw_map(GarmentMap(("A", "B"), (lane("base", stops),), "Invented", ())) is None
