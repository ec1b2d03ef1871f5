"""What is said of a DXF that is not as it should be: at its name or at the piece, with the layers that it uses."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from booklet.read.faults import Faults
from booklet.shape.layers import COURSES, NOTCHES, POINTS, listed_layers
from booklet.shape.shapes import Shapes
from tests.shape.making import block, dxf, pattern_in

PIECES = """\
outlines: p.dxf
pieces:
  front: {number: 1, cut: {self: 2}, edges: {all: {}}}
  back: {number: 2, cut: {self: 2}, edges: {all: {}}}
"""
CORNERS = [(0, 0), (300, 0), (300, 200), (0, 200)]


def _said(folder: Path, data: bytes) -> list[tuple[str, int, str]]:
    """Rule, line and sentence of everything that is found when every piece is asked for."""
    faults = Faults()
    shapes = Shapes(pattern_in(folder / "p", PIECES, {"p.dxf": data}), faults)
    for name in ("front", "back"):
        shapes.of(name, "")
    return [(fault.rule, fault.place.line, fault.says) for fault in faults.findings]


def _pieces(front: str = "1", back: str = "1", scale: float = 1.0) -> Callable[[Any], None]:
    """Both pieces, each on a layer."""

    def draw(document: Any) -> None:
        for name, layer in (("front", front), ("back", back)):
            points = [(x * scale, y * scale) for x, y in CORNERS]
            block(document, name).add_lwpolyline(points, close=True, dxfattribs={"layer": layer})

    return draw


@pytest.mark.parametrize(
    ("layers", "said"),
    [
        (("84", "84"), "layer 84 (quality check of layer 1)."),
        (("10", "9"), "layers 9 (stripe reference) and 10 (plaid reference)."),
        (("14", "CUT"), "layers 14 (sewing lines) and “CUT”."),
        (("0", "5"), "layers 5 (grade reference) and 0."),
    ],
)
def test_a_file_without_layer_1_says_on_which_it_draws(tmp_path: Path, layers: tuple[str, str], said: str) -> None:
    """Source of what they hold: ASTM D6673-10, table of layers."""
    ((rule, line, says),) = _said(tmp_path, dxf(_pieces(*layers)))
    assert (rule, line) == ("outline-not-read", 8)
    assert (
        says
        == f"p.dxf: This file holds no piece: nothing is drawn on layer 1, where cutting lines belong, but on {said}"
    )


def test_a_piece_without_layer_1_is_said_at_the_piece(tmp_path: Path) -> None:
    ((rule, line, says),) = _said(tmp_path, dxf(_pieces(back="86")))
    assert (rule, line) == ("piece-not-drawn", 11)
    assert says == (
        "The back has no cutting line in p.dxf, where its block draws only on layer 86 (quality check of layer 11)."
    )


def test_layers_that_are_left_alone_do_no_harm(tmp_path: Path) -> None:
    def draw(document: Any) -> None:
        _pieces()(document)
        for layer in ("3", "5", "9", "10", "12", "84", "85", "86", "87", "99", "logo"):
            document.blocks.get("front").add_line((0, 0), (500, 500), dxfattribs={"layer": layer})

    assert _said(tmp_path, dxf(draw)) == []


def test_every_layer_that_is_read_has_a_name_in_findings() -> None:
    for layer in {*COURSES, *NOTCHES, *POINTS} - {1}:
        assert listed_layers([str(layer)]).endswith(")")


def test_more_layers_than_one_can_read_are_cut_short() -> None:
    assert listed_layers(f"L{at}" for at in range(40)).endswith("“L12”, “L13” and others")


@pytest.mark.parametrize(("units", "scale", "rule"), [(0, 0.1, "outlines-out-of-scale"), (5, 0.1, ""), (0, 1.0, "")])
def test_a_file_that_does_not_say_its_units_is_asked_for_them_when_its_pieces_are_small(
    tmp_path: Path, units: int, scale: float, rule: str
) -> None:
    """30 that may be centimetres; `$INSUNITS` 5 says that they are."""
    assert [found[0] for found in _said(tmp_path, dxf(_pieces(scale=scale), units=units))] == ([rule] if rule else [])


def test_a_block_that_is_placed_larger_than_it_is_drawn_is_not_read_in_the_wrong_size(tmp_path: Path) -> None:
    """Mirrored or turned it may be."""

    def draw(document: Any) -> None:
        _pieces()(document)
        front, back = document.modelspace().query("INSERT")
        front.dxf.xscale = front.dxf.yscale = 25.4
        back.dxf.xscale, back.dxf.rotation = -1, 30

    ((rule, _, says),) = _said(tmp_path, dxf(draw))
    assert (rule, says) == (
        "outline-not-read",
        "p.dxf: The block of the front is placed 25.4 times as large as it is drawn.",
    )


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "is empty"),
        (b"%PDF-1.7\n", "is a PDF"),
        (b"PK\x03\x04" + bytes(60), "is a ZIP archive"),
        (b"\x1f\x8b" + bytes(60), "is packed (gzip)"),
        (b"AC1032" + bytes(60), "is a DWG drawing"),
        (b"AutoCAD Binary DXF\r\n\x1a\0" + bytes(60), "is a DXF in binary form"),
        ("  0\nSECTION\n".encode("utf-16"), "is text in UTF-16"),
    ],
    ids=["empty", "pdf", "zip", "gzip", "dwg", "binary", "utf-16"],
)
def test_a_file_of_another_kind_is_called_by_its_name(tmp_path: Path, data: bytes, said: str) -> None:
    ((rule, line, says),) = _said(tmp_path, data)
    assert (rule, line) == ("outline-not-read", 8)
    assert said in says


@pytest.mark.parametrize("at", [9000, 9001, 9002, 9003, 9004, 9005])
def test_a_file_that_breaks_off_before_its_pieces_says_so(tmp_path: Path, at: int) -> None:
    ((rule, line, says),) = _said(tmp_path, dxf(_pieces())[:at])
    assert (rule, line) == ("outline-not-read", 8)
    assert "breaks off before its end" in says
