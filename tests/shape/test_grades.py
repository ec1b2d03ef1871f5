"""Graded sizes in DXF: as blocks of one file, or as files; and what is said where they can't be told apart."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from booklet.read.faults import Faults
from booklet.shape.shapes import Shapes
from tests.shape.making import block, dxf, pattern_in

PIECES = """\
sizes: [12, 14]
outlines: {files}
pieces:
  front: {{number: 1, cut: {{self: 2}}, edges: {{top: {{}}, right: {{}}, bottom: {{}}, left: {{}}}}}}
"""
SMALL, LARGE = 300, 320


def _drawn(*blocks: tuple[str, Sequence[str], Sequence[int]]) -> bytes:
    """Blocks by name, with their texts and the widths of their cutting lines; all are 200 high."""

    def draw(document: Any) -> None:
        for name, texts, widths in blocks:
            piece = block(document, name, texts)
            for wide in widths:
                corners = [(0, 0), (wide, 0), (wide, 200), (0, 200)]
                piece.add_lwpolyline(corners, close=True, dxfattribs={"layer": "1"})

    return dxf(draw)


def _read(folder: Path, files: str, data: dict[str, bytes]) -> tuple[list[int | None], list[tuple[str, str, str]]]:
    """How wide the front is cut in each size, and what is found: its rule, its sentence and its mend."""
    faults = Faults()
    shapes = Shapes(pattern_in(folder / "p", PIECES.format(files=files), dict(data)), faults)
    found = [shapes.of("front", size) for size in shapes.sizes]
    wide = [None if shape is None else round(max(x for x, _ in shape.cut)) for shape in found]
    return wide, [(fault.rule, fault.says, fault.mend) for fault in faults.findings]


@pytest.mark.parametrize(
    "blocks",
    [
        (("A", ["Piece Name: front", "Size: 12"], [SMALL]), ("B", ["Piece Name: front", "Size: 14"], [LARGE])),
        (("A", ["Piece Name: front 12"], [SMALL]), ("B", ["Piece Name: front 14"], [LARGE])),
        (("FRONT_12", [], [SMALL]), ("FRONT_14", [], [LARGE])),
        (("P1-12", ["Piece Name: front"], [SMALL]), ("P1-14", ["Piece Name: front"], [LARGE])),
    ],
    ids=["text", "piece name", "block name", "block name beside a piece name"],
)
def test_sizes_may_be_blocks_of_one_file(tmp_path: Path, blocks: Any) -> None:
    assert _read(tmp_path, "p.dxf", {"p.dxf": _drawn(*blocks)}) == ([SMALL, LARGE], [])


@pytest.mark.parametrize(
    ("files", "names", "texts"),
    [
        ("p-*.dxf", ("p-12.dxf", "p-14.dxf"), ("", "")),
        ("[12/p.dxf, 14/p.dxf]", ("12/p.dxf", "14/p.dxf"), ("", "")),
        ("[small.dxf, large.dxf]", ("small.dxf", "large.dxf"), ("Size: 12", "Size: 14")),
        ("[p-14.dxf, p-12.dxf]", ("p-14.dxf", "p-12.dxf"), ("Size: 12", "Size: 14")),
    ],
    ids=["file name", "folder", "text", "text before file name"],
)
def test_sizes_may_be_files(tmp_path: Path, files: str, names: tuple[str, str], texts: tuple[str, str]) -> None:
    rows = zip(names, texts, (SMALL, LARGE), strict=True)
    data = {name: _drawn(("front", [text] if text else [], [wide])) for name, text, wide in rows}
    assert _read(tmp_path, files, data) == ([SMALL, LARGE], [])


def test_files_that_do_not_say_their_size_are_asked_for_it(tmp_path: Path) -> None:
    data = {"a.dxf": _drawn(("front", [], [SMALL])), "b.dxf": _drawn(("front", [], [LARGE]))}
    wide, ((rule, says, mend),) = _read(tmp_path, "[a.dxf, b.dxf]", data)
    assert (wide, rule) == ([SMALL, SMALL], "piece-drawn-twice")
    assert says == "The front is drawn twice in a.dxf and b.dxf, and not alike; the first is taken."
    assert mend.endswith("or in the file's name, as in pieces-12.")


def test_a_nest_of_sizes_in_one_block_is_not_taken_for_one_piece_with_holes(tmp_path: Path) -> None:
    wide, ((rule, says, _),) = _read(tmp_path, "p.dxf", {"p.dxf": _drawn(("front", [], [SMALL, LARGE]))})
    assert (wide, rule) == ([None, None], "outline-not-read")
    assert says == "p.dxf: The front has several cutting lines of about one size."


def test_a_hole_cut_out_of_a_piece_is_none(tmp_path: Path) -> None:
    assert _read(tmp_path, "p.dxf", {"p.dxf": _drawn(("front", [], [SMALL, 40]))}) == ([SMALL, SMALL], [])
