"""SVG: groups name pieces and sizes, transforms and units are honoured, arcs keep their lengths."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest

from booklet.shape.course import Course, Part, Point, length, nearest
from booklet.shape.known import Known
from booklet.shape.outline import BadOutline, Outline
from booklet.shape.read_svg import read_svg
from tests.shape.making import long, pattern_in, svg

BODY = """\
sizes: [8, 10]
fittings: [B cup, D cup]
pieces:
  front: {number: 1, cut: {self: 2}, edges: {all: {}}}
  front facing: {number: 2, cut: {self: 2}, edges: {all: {}}}
"""
SQUARE = '<path class="cut" d="M0 0h100v80h-100z"/>'


@pytest.fixture(name="known")
def _known(tmp_path: Path) -> Known:
    return Known(pattern_in(tmp_path / "known", BODY))


def _read(known: Known, body: str) -> tuple[Outline, ...]:
    file = read_svg(svg(body).encode(), known)
    assert file.bad == ()
    return file.outlines


def _told(known: Known, body: str) -> list[tuple[str, str]]:
    return [(outline.name, outline.size) for outline in _read(known, body)]


def test_a_size_is_a_group_in_its_piece_or_a_layer_around_it(known: Known) -> None:
    inside = f'<g id="front"><g id="size_8">{SQUARE}</g><g id="size_10">{SQUARE}</g></g>'
    around = f'<g id="size-8"><g id="front">{SQUARE}</g></g><g id="size-10"><g id="front">{SQUARE}</g></g>'
    assert _told(known, inside) == _told(known, around) == [("front", "8"), ("front", "10")]


@pytest.mark.parametrize(
    ("group", "told"),
    [
        ('<g id="FRONT_FACING">', ("front facing", "")),
        ('<g id="front_x20_facing-10">', ("front facing", "10")),
        ('<g id="g12"><title>1 front</title>', ("front", "")),
        ('<g id="front" data-name="Front facing size 8">', ("front facing", "8")),
        ('<g id="front-b-cup">', ("front B cup", "")),
        ('<g xmlns:x="urn:x" id="layer7" x:label="front">', ("front", "")),
    ],
)
def test_a_group_is_named_by_its_title_label_or_id(known: Known, group: str, told: tuple[str, str]) -> None:
    """Drawing programs write blanks of an id as hyphens, underscores or codes."""
    assert _told(known, f"{group}{SQUARE}</g>") == [told]


def test_groups_without_a_name_of_the_pattern_hold_what_belongs_to_the_piece(known: Known) -> None:
    """Marks are told by class, by their own name, or by that of a group around them."""
    (outline,) = _read(
        known,
        f"""<g id="pieces"><g id="front"><g id="lines">{SQUARE}<path id="cutting-line" d="M900 0h1v1z"/></g>
        <g id="notches"><path d="M50 0v6"/><line x1="100" y1="40" x2="94" y2="40"/></g>
        <path id="T_notch_3" d="M20 80v-5"/><circle class="st0 dot" cx="30" cy="30" r="2"/>
        <rect id="corner1" x="-1" y="-1" width="2" height="2"/><path class="sew" d="M10 10h80v60h-80z"/>
        <path class="grain" d="M50 10v60"/><path class="fold" d="M0 0v80"/><path id="inner_line" d="M5 40h90"/>
        <path class="cutout" d="M60 50h20v20h-20z"/>
        <path id="decoration" d="M0 0h500"/><text>Cut <tspan>two</tspan></text>
        </g></g>""",
    )
    assert [(notch.at, notch.kind, notch.depth) for notch in outline.notches] == [
        ((50, 0), "slit", 6),
        ((100, 40), "slit", 6),
        ((20, 80), "t", 5),
    ]
    assert list(outline.corners) == [(0, 0)]
    assert list(outline.holes) == [(30, 30)]
    assert [round(length(course.points())) for course in (*outline.sew, *outline.lines, *outline.cutouts)] == [
        280,
        90,
        80,
    ]
    chords = [outline.grain, outline.mirror]
    assert chords == [((50, 10), (50, 70)), ((0, 0), (0, 80))]
    assert outline.texts == ("Cut two",)


def test_what_is_not_drawn_is_not_read(known: Known) -> None:
    """Hidden layers, definitions and patterns."""
    hidden = "".join(
        f"<{tag}>{SQUARE}</{tag.split()[0]}>"
        for tag in ('g display="none"', 'g style="stroke: red; display: none"', "defs", "symbol", "clipPath")
    )
    assert len(_read(known, f'<g id="front">{SQUARE}{hidden}</g>')[0].cutouts) == 0


def test_arcs_and_curves_have_their_lengths(known: Known) -> None:
    """Closed forms: half a circle of radius 50, and a quadratic curve by its own integral."""
    (outline,) = _read(known, '<g id="front"><path class="cut" d="M0 0 H100 A50 50 0 0 1 100 100 H0 Q-50 50 0 0"/></g>')
    # Of the parabola through (0, 100), control (-50, 50), (0, 0): x = -100 t (1-t), y = 100 (1-t).
    steps = 100_000
    points = [(-100 * t * (1 - t), 100 * (1 - t)) for t in (at / steps for at in range(steps + 1))]
    curve = math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points))
    assert long(outline.ring) == pytest.approx(200 + 50 * math.pi + curve, abs=0.02)


@pytest.mark.parametrize(
    ("transform", "factor"),
    [
        ("translate(30 -4)", 1),
        ("scale(2)", 2),
        ("rotate(37)", 1),
        ("rotate(37, 10, 20) translate(5)", 1),
        ("matrix(0 1 -1 0 5 5)", 1),
        ("scale(-1 1)", 1),
    ],
)
def test_transforms_move_lines_as_they_move_the_eye(known: Known, transform: str, factor: float) -> None:
    """Lengths under a motion stay; the ring runs clockwise on paper even where the transform mirrors it."""
    (outline,) = _read(known, f'<g transform="{transform}"><g id="front">{SQUARE}</g></g>')
    assert length(outline.ring.points()) == pytest.approx(360 * factor)


def test_arcs_are_those_of_the_specification(known: Known) -> None:
    """Against fontTools' own arcs, point by point: large and small, both ways, tilted, and too small."""
    from fontTools.pens.recordingPen import RecordingPen
    from fontTools.svgLib.path.parser import parse_path

    for shape in ("80 80 0", "90 60 30", "200 70 -50", "10 5 20"):
        for flags in ("0 0", "0 1", "1 0", "1 1"):
            data = f"M0 0 A{shape} {flags} 90 60 L100 200 Z"
            (outline,) = _read(known, f'<g id="front"><path class="cut" d="{data}"/></g>')
            pen = RecordingPen()
            parse_path(data, pen)
            here: Point = (0.0, 0.0)
            theirs: list[Point] = []
            for command, points in pen.value:
                if command == "curveTo":
                    theirs += Course(here, (Part(points[2], points[:2]),)).points(1)
                here = points[-1] if points else here
            flat = outline.ring.points(0.001)
            assert max(nearest(flat, point)[1] for point in theirs) < 0.06


def test_transforms_are_read_from_the_left(known: Known) -> None:
    """Source: CSS Transforms Module Level 1: the first function is the outermost."""
    (outline,) = _read(known, f'<g id="front" transform="translate(100 0) scale(3) skewX(45)">{SQUARE}</g>')
    xs, ys = zip(*outline.ring.points(), strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == pytest.approx((100, 100 + 3 * 180, 0, 240))


@pytest.mark.parametrize(
    ("size", "factor"),
    [
        ('width="200mm" height="100mm" viewBox="0 0 200 100"', 1),
        ('width="20cm" viewBox="0 0 200 100"', 1),
        ('width="10in" viewBox="0 0 1000 500"', 0.254),
        ('width="100%" height="5in" viewBox="0 0 1000 500"', 0.254),
        ("", 25.4 / 96),
        ('width="400mm" height="100mm" viewBox="0 0 200 100"', 1),
    ],
)
def test_units_come_from_the_width_and_the_view_box(known: Known, size: str, factor: float) -> None:
    """Source: CSS Values and Units Level 4: 96 px to the inch; SVG 1.1, 7.8: the smaller scale where they differ."""
    text = f'<svg xmlns="http://www.w3.org/2000/svg" {size}><g id="front">{SQUARE}</g></svg>'
    (outline,) = read_svg(text.encode(), known).outlines
    assert length(outline.ring.points()) == pytest.approx(360 * factor)


def test_a_file_whose_groups_are_called_otherwise_says_how_they_are_called(known: Known) -> None:
    with pytest.raises(BadOutline, match="“Vorderteil”"):
        read_svg(svg(f'<g id="Vorderteil">{SQUARE}</g>').encode(), known)
