"""Edges get their names from the corners where they begin."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.model.pattern import Piece
from booklet.read.tree import same_name
from booklet.shape.course import Course, length, line
from booklet.shape.name import shape_of
from booklet.shape.outline import Outline
from tests.shape.making import pattern_in

SQUARE: Course = line([(0, 0), (100, 0), (100, 100), (0, 100), (0, 0)])


def patch_in(folder: Path, edges: str, corners: str = "") -> Piece:
    pieces = f"pieces: {{patch: {{number: 1, cut: {{self: 1}}, {corners}edges: {edges}}}}}\n"
    return pattern_in(folder, pieces).pieces[same_name("patch")]


def test_the_only_edge_of_a_piece_runs_all_round_it(tmp_path: Path) -> None:
    """A patch sewn down flat: its edge begins where the file's line does, or at the corner that the pattern says."""
    for corners, first in (("", (0.0, 0.0)), ("corners: [1], ", (100.0, 100.0))):
        piece = patch_in(tmp_path / str(len(corners)), "{outer: {allowance: 0 cm}}", corners)
        edge = shape_of(piece, Outline("patch", "", SQUARE, ((100.0, 100.0),))).edges["outer"]
        assert length(edge.cut) == pytest.approx(400)
        assert edge.cut[0] == edge.cut[-1] == first


def test_edges_share_the_outline_from_corner_to_corner(tmp_path: Path) -> None:
    piece = patch_in(tmp_path, "{one: {}, two: {}, three: {}}")
    corners = ((100.0, 0.0), (100.0, 100.0), (0.0, 0.0))
    shape = shape_of(piece, Outline("patch", "", SQUARE, corners))
    assert [length(edge.cut) for edge in shape.edges.values()] == pytest.approx([100, 200, 100])
