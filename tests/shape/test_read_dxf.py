"""DXF: curves keep their lengths, marks their meaning, and pieces their names."""

from __future__ import annotations

import io
import itertools
import math
from pathlib import Path
from typing import Any

import ezdxf.filemanagement
import pytest
import yaml
from ezdxf import path as ezdxf_path
from shapely.geometry import Polygon

from booklet.read.faults import Faults
from booklet.shape.course import FINE, TOLERANCE, area, length
from booklet.shape.outline import BadOutline
from booklet.shape.read_dxf import read_dxf
from booklet.shape.shapes import Shapes
from tests.shape.making import block, dxf, long, one_outline, pattern_in

CUT = {"layer": "1"}
SQUARE = [(0, 0), (300, 0), (300, 200), (0, 200)]


def test_a_straight_outline_keeps_its_points_and_is_turned_down() -> None:
    """y runs up in a DXF and down on paper; the ring runs as the file draws it, the first corner first."""
    outline = one_outline(lambda piece: piece.add_lwpolyline(SQUARE, close=True, dxfattribs=CUT))
    assert set(outline.ring.points()) == {(0, 0), (300, 0), (300, -200), (0, -200)}
    assert area(outline.ring.points()) == pytest.approx(-60_000), "drawn anticlockwise as seen"
    assert outline.corners == ((0, 0), (300, 0), (300, -200), (0, -200))


def test_a_bulge_is_a_true_arc() -> None:
    """A bulge of 1 is half a circle. Source: DXF Reference: the tangent of a quarter of the included angle."""
    outline = one_outline(
        lambda piece: piece.add_lwpolyline(
            [(0, 0, 0), (300, 0, 1), (300, 200, 0), (0, 200, 0)], format="xyb", close=True, dxfattribs=CUT
        )
    )
    assert long(outline.ring) == pytest.approx(300 + 300 + 200 + math.pi * 100, abs=0.02)
    assert -area(outline.ring.points(1e-4)) == pytest.approx(60_000 + math.pi * 100**2 / 2, rel=1e-4)


def test_an_outline_of_lines_and_arcs_is_chained() -> None:
    """In any order, drawn in either direction: lengths against closed forms."""

    def draw(piece: Any) -> None:
        piece.add_line((300, 200), (0, 200), dxfattribs=CUT)
        piece.add_arc((300, 100), 100, 270, 90, dxfattribs=CUT)
        piece.add_line((0, 0), (0, 200), dxfattribs=CUT)
        piece.add_line((0, 0), (300, 0), dxfattribs=CUT)

    outline = one_outline(draw)
    assert long(outline.ring) == pytest.approx(800 + math.pi * 100, abs=0.001)
    assert len(outline.corners) == 2, "where an arc runs on from a line there is no corner"


def test_a_quarter_ellipse_has_its_length() -> None:
    """Half-axes of 200 and 100: its length by numerical integration."""
    from scipy.special import ellipe

    def draw(piece: Any) -> None:
        piece.add_ellipse((0, 0), (200, 0), 0.5, 0, math.pi / 2, dxfattribs=CUT)
        piece.add_line((0, 100), (0, 0), dxfattribs=CUT)
        piece.add_line((0, 0), (200, 0), dxfattribs=CUT)

    expected = 200 * ellipe(1 - 0.5**2)  # the complete elliptic integral of the second kind
    assert long(one_outline(draw).ring) == pytest.approx(expected + 300, abs=0.005)


def test_a_spline_has_the_length_that_ezdxf_gives_it() -> None:
    points = [(0, 0), (40, 130), (150, 180), (260, 90), (300, 0)]

    def draw(piece: Any) -> None:
        spline = piece.add_spline(points, degree=3, dxfattribs=CUT)
        spline.control_points = [(*point, 0) for point in points]
        spline.fit_points = []
        spline.knots = [0, 0, 0, 0, 1, 2, 2, 2, 2]
        piece.add_line((300, 0), (0, 0), dxfattribs=CUT)
        drawn.append(spline.construction_tool())

    drawn: list[Any] = []
    outline = one_outline(draw)
    flat = list(drawn[0].approximate(20_000))
    assert long(outline.ring) == pytest.approx(sum(a.distance(b) for a, b in itertools.pairwise(flat)) + 300, abs=0.002)


def test_every_drawn_kind_has_the_length_of_ezdxfs_own_path() -> None:
    """Read back by ezdxf from the file that we read, with its own flattening."""

    def draw(document: Any) -> None:
        for at, version in enumerate(("closed", "open")):
            piece = block(document, version)
            piece.add_lwpolyline(
                [(0, 0, 0.2), (300, 0, -0.3), (320, 260, 0.1), (0, 250, 0)], format="xyb", close=True, dxfattribs=CUT
            )
            piece.add_polyline2d(
                [(10, 10, 0.4), (90, 10 + at, 0), (90, 90, 0)], format="xyb", dxfattribs={"layer": "8"}
            )
            piece.add_spline([(20, 30), (60, 90), (120, 40), (200, 70)], dxfattribs={"layer": "8"})
            piece.add_ellipse((100, 100), (40, 20), 0.6, 0.3, 4.0, dxfattribs={"layer": "8"})
            piece.add_arc((100, 100), 30, 300, 80, dxfattribs={"layer": "8"})
            piece.add_circle((100, 100), 25, dxfattribs={"layer": "8"})
            piece.add_line((0, 0), (30, 40), dxfattribs={"layer": "8"})

    data = dxf(draw)
    document = ezdxf.filemanagement.read(io.StringIO(data.decode()))
    for outline in read_dxf(data).outlines:
        theirs = [
            sum(a.distance(b) for a, b in itertools.pairwise(flat))
            for entity in document.blocks.get(outline.name)
            for flat in [list(ezdxf_path.make_path(entity, segments=16).flattening(1e-4))]
        ]
        ours = [long(outline.ring), *(long(line) for line in outline.lines)]
        assert ours == pytest.approx(theirs, abs=0.03)
        assert [length(line.points(FINE)) for line in outline.lines] == pytest.approx(theirs[1:], abs=0.05)


def test_a_flattened_curve_stays_within_its_tolerance() -> None:
    """Every point of the true circle lies within TOLERANCE of the flat line: its sagitta says so."""
    outline = one_outline(lambda piece: piece.add_circle((0, 0), 150, dxfattribs=CUT))
    flat = outline.ring.points()
    steps = [math.dist(a, b) for a, b in itertools.pairwise(flat)]
    sagitta = 150 - math.sqrt(150**2 - (max(steps) / 2) ** 2)
    assert 0 < sagitta <= TOLERANCE
    assert outline.corners == ()


@pytest.mark.parametrize(
    ("units", "text", "factor"),
    [
        (4, "", 1),
        (5, "", 10),
        (1, "", 25.4),
        (6, "", 1000),
        (0, "", 1),
        (0, "Units: ENGLISH", 25.4),
        (1, "Units: METRIC", 1),
    ],
)
def test_units_are_the_files_own(units: int, text: str, factor: float) -> None:
    """What the file says in words goes before its header."""

    def draw(document: Any) -> None:
        if text:
            document.modelspace().add_text(text)
        block(document, "piece").add_lwpolyline([(0, 0), (12, 0), (12, 8), (0, 8)], close=True, dxfattribs=CUT)

    (outline,) = read_dxf(dxf(draw, units=units)).outlines
    assert length(outline.ring.points()) == pytest.approx(40 * factor)


def test_names_and_sizes_stand_in_the_texts_of_a_block() -> None:
    """Or the block's own name stands for both."""

    def draw(document: Any) -> None:
        for name, texts in (
            ("B1", ["Piece Name: FRONT", "Size: 12", "Quantity: 1"]),
            ("B2", ["PIECE NAME:  Back  yoke", "size 14"]),
            ("SLEEVE_12", []),
        ):
            block(document, name, texts).add_lwpolyline(SQUARE, close=True, dxfattribs=CUT)

    found = [(outline.name, outline.size) for outline in read_dxf(dxf(draw)).outlines]
    assert found == [("FRONT", "12"), ("Back yoke", "14"), ("SLEEVE_12", "")]


def test_a_size_may_stand_in_the_blocks_name_alone(tmp_path: Path) -> None:
    """While a text says the piece's; names in another encoding, or in the escapes of old files, are read."""

    def draw(document: Any) -> None:
        for label, name in (("P1_12", "\\U+00C4rmel"), ("Ärmel-14", "Ärmel")):
            block(document, label, [f"Piece Name: {name}"]).add_polyline2d(SQUARE, close=True, dxfattribs=CUT)

    data = dxf(draw, "R12").decode().encode("cp1252")
    body = "sizes: [12, 14]\noutlines: p.dxf\npieces:\n  ärmel: {number: 1, cut: {self: 2}, edges: {all: {}}}\n"
    shapes = Shapes(pattern_in(tmp_path / "p", body, {"p.dxf": data}), Faults())
    assert [shapes.of("ärmel", size) is not None for size in shapes.sizes] == [True, True]


def test_layers_have_the_meaning_of_the_standard() -> None:
    """Source: ASTM D6673-10, table of layers."""

    def draw(piece: Any) -> None:
        piece.add_lwpolyline(SQUARE, close=True, dxfattribs=CUT)
        for at in SQUARE:
            piece.add_point(at, dxfattribs={"layer": "2"})
        piece.add_point((150, 0), dxfattribs={"layer": "3"})
        for layer, along in ((80, 40), (4, 100), (83, 120), (81, 60), (82, 80)):
            piece.add_point((along, 0, 6), dxfattribs={"layer": str(layer)})
        piece.add_line((300, 50), (294, 50), dxfattribs={"layer": "4"})
        piece.add_lwpolyline([(0, 90), (6, 94), (0, 98)], dxfattribs={"layer": "4"})
        piece.add_line((0, 0), (0, 200), dxfattribs={"layer": "6"})
        piece.add_line((50, 20), (50, 180), dxfattribs={"layer": "7"})
        piece.add_line((20, 20), (80, 20), dxfattribs={"layer": "8"})
        piece.add_circle((150, 100), 9, dxfattribs={"layer": "11"})
        piece.add_point((30, 30), dxfattribs={"layer": "13"})
        piece.add_circle((60, 30), 2, dxfattribs={"layer": "13"})
        piece.add_lwpolyline([(15, 15), (285, 15), (285, 185), (15, 185)], close=True, dxfattribs={"layer": "14"})
        piece.add_text("Cut two", dxfattribs={"layer": "15"})
        piece.add_line((0, 0), (300, 200), dxfattribs={"layer": "9"})

    outline = one_outline(draw)
    kinds = [(notch.kind, round(notch.at[0]), round(notch.at[1]), round(notch.depth)) for notch in outline.notches]
    assert sorted(kinds) == sorted(
        [
            ("t", 40, 0, 6),
            ("castle", 60, 0, 6),
            ("check", 80, 0, 6),
            ("slit", 100, 0, 6),
            ("u", 120, 0, 6),
            ("slit", 300, -50, 6),
            ("v", 0, -94, 6),
        ]
    )
    chords = [outline.mirror, outline.grain]
    assert chords == [((0, 0), (0, -200)), ((50, -20), (50, -180))]
    assert [line.points() for line in outline.lines] == [((20, -20), (80, -20))]
    assert list(outline.holes) == [(30, -30), (60, -30)]
    assert [round(length(line.points())) for line in outline.sew] == [880]
    assert [area(ring.points(0.001)) for ring in outline.cutouts] == [pytest.approx(math.pi * 81, rel=1e-3)]
    assert "Cut two" in outline.texts


def test_corners_and_notches_are_numbered_round_the_ring_in_every_size_alike() -> None:
    """A turn point a hair before the start of the ring is the first corner, not the last."""

    def draw(document: Any) -> None:
        for size, off in (("10", 0.0), ("12", 0.004), ("14", -0.004)):
            piece = block(document, f"front {size}")
            piece.add_lwpolyline(SQUARE, close=True, dxfattribs=CUT)
            for at in reversed(SQUARE):
                piece.add_point((at[0], at[1] + off), dxfattribs={"layer": "2"})

    found = {outline.corners for outline in read_dxf(dxf(draw)).outlines}
    assert len(found) == 1
    (corners,) = found
    assert corners[0] == (0, 0)


def test_a_piece_may_stand_in_a_block_of_a_block() -> None:
    def draw(document: Any) -> None:
        marks = document.blocks.new("marks")
        marks.add_point((0, 0), dxfattribs={"layer": "13"})
        piece = block(document, "front")
        piece.add_lwpolyline(SQUARE, close=True, dxfattribs=CUT)
        piece.add_blockref("marks", (100, 50))

    (outline,) = read_dxf(dxf(draw)).outlines
    assert outline.holes == ((100, -50),)


def test_pieces_without_blocks_are_told_by_their_closed_lines() -> None:
    """Each mark belongs to the smallest ring around it."""

    def draw(document: Any) -> None:
        space = document.modelspace()
        for left, name in ((0, "front"), (500, "back")):
            space.add_lwpolyline([(x + left, y) for x, y in SQUARE], close=True, dxfattribs=CUT)
            space.add_text(f"Piece Name: {name}", dxfattribs={"layer": "1", "insert": (left + 20, 20)})
            space.add_point((left + 30, 30), dxfattribs={"layer": "13"})

    found = {outline.name: outline.holes for outline in read_dxf(dxf(draw)).outlines}
    assert found == {"front": ((30, -30),), "back": ((530, -30),)}


def test_the_oldest_form_of_dxf_is_read_alike() -> None:
    def draw(document: Any) -> None:
        document.modelspace().add_text("Units: METRIC")
        block(document, "piece", ["Size: 8"]).add_polyline2d(
            [(0, 0, 0.5), (300, 0, 0), (300, 200, 0), (0, 200, 0)], format="xyb", close=True, dxfattribs=CUT
        )

    old, new = (read_dxf(dxf(draw, version)).outlines[0] for version in ("R12", "R2018"))
    ends = [[value for point in outline.ring.points() for value in point] for outline in (old, new)]
    assert ends[0] == pytest.approx(ends[1])
    assert old.size == new.size == "8"


def test_an_open_cutting_line_says_how_wide_its_gap_is() -> None:
    def draw(document: Any) -> None:
        block(document, "front").add_lwpolyline(SQUARE, dxfattribs=CUT)
        block(document, "back").add_lwpolyline([*SQUARE, (0, 1)], dxfattribs=CUT)

    file = read_dxf(dxf(draw))
    assert [outline.name for outline in file.outlines] == ["back"], "a gap of a millimetre is closed"
    ((name, error),) = file.bad
    assert name == "front"
    assert "200.0 mm apart" in error.says


def test_the_pieces_of_a_nesting_benchmark_have_their_published_area() -> None:
    """The density of the best layout of “albano” is its pieces' area by height and length; and shapely's area."""
    table = yaml.safe_load((Path(__file__).parent / "albano.yaml").read_text(encoding="utf-8"))

    def draw(document: Any) -> None:
        for at, row in enumerate(table["pieces"]):
            block(document, f"piece {at}").add_lwpolyline(row["points"], close=True, dxfattribs=CUT)

    outlines = read_dxf(dxf(draw)).outlines
    areas = [abs(area(outline.ring.points())) for outline in outlines]
    assert areas == pytest.approx([Polygon(row["points"]).area for row in table["pieces"]])
    whole = sum(size * row["copies"] for size, row in zip(areas, table["pieces"], strict=True))
    best = table["best"]
    assert 100 * whole / (table["height"] * best["length"]) == pytest.approx(best["density"], abs=0.001)


def test_what_is_no_dxf_is_refused_in_plain_words() -> None:
    for data in (
        b"",
        b"no drawing",
        b"0\nSECTION\n",
        b"\0" * 100,
        b"AutoCAD Binary DXF\r\n\x1a\0SECTION" + b"\xff" * 50,
    ):
        with pytest.raises(BadOutline, match="This file"):
            read_dxf(data)
