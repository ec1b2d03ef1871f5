"""`notchbook edges`: every mark numbered, names along their edges, and a proposal where edges can't be told."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from booklet.edges import write_edges
from booklet.read.faults import Faults
from booklet.shape.propose import proposed_corners
from booklet.shape.shapes import Shapes
from tests.command import notchbook
from tests.rules.harness import write_pattern
from tests.shape.making import pattern_in, svg

FRONT = "edges: {neckline: {curve: inward}, shoulder: {}, armhole: {curve: inward}, side: {}, hem: {}, fold: {}}"
BODY = f"outlines: p.svg\npieces:\n  front: {{number: 1, cut: {{self: 1 on fold}}, {FRONT}}}\n"
PATH = "M0 60 C0 100 40 110 70 20 L150 40 C140 120 160 180 220 200 L230 560 L0 560 Z"
CORNERS: list[tuple[float, float]] = [(0, 60), (70, 20), (150, 40), (220, 200), (230, 560), (0, 560)]


def _drawn(path: str, corners: list[tuple[float, float]], more: str = "") -> str:
    dots = "".join(f'<circle class="corner" cx="{x}" cy="{y}" r="1"/>' for x, y in corners)
    return svg(f'<g id="front"><path class="cut" d="{path}"/>{dots}<path class="fold" d="M0 60V560"/>{more}</g>')


def _proposed(folder: Path, body: str, drawing: str) -> list[str] | None:
    pattern = pattern_in(folder, body, {"p.svg": drawing})
    outline = Shapes(pattern, Faults()).outline("front", "")
    assert outline is not None
    return proposed_corners(pattern.pieces["front"], outline)


def test_the_page_numbers_every_mark_and_letters_every_edge(tmp_path: Path) -> None:
    """Of the one piece that is asked for, in the size of the figures."""
    write_pattern(tmp_path / "vest", "outlines: pieces.svg\n")
    written = write_edges(tmp_path / "vest", tmp_path / "out", "front")
    assert written.target == tmp_path / "out" / "vest-edges.html"
    page = written.target.read_text(encoding="utf-8")
    figure = page[page.index("<figure") :]
    assert re.findall(r'<g class="corner"><circle [^>]*/><text [^>]*>(\w+)</text>', figure) == list("123456")
    assert re.findall(r'class="mark"[^>]*>(\w+)<', figure) == ["n1", "l1", "l2", "l3"]
    named = re.findall(r'class="name"[^>]*>([^<]+)<', figure)
    assert sorted(named) == ["armhole", "fold", "hem", "neckline", "shoulder", "side"]
    assert "back" not in figure


@pytest.mark.parametrize("turn", range(6))
def test_edges_are_proposed_by_their_curves_and_the_fold(tmp_path: Path, turn: int) -> None:
    """Wherever the file begins: a corner too many, half way down the side, is left out."""
    corners = [*CORNERS[:4], (225, 380), *CORNERS[4:]]
    # The path begins at another corner each time: the same ring, rotated.
    parts = ["C0 100 40 110 70 20", "L150 40", "C140 120 160 180 220 200", "L225 380L230 560", "L0 560", "L0 60"]
    start = CORNERS[turn]
    path = f"M{start[0]} {start[1]}" + "".join(parts[turn:] + parts[:turn])
    order = corners.index(start)
    seen = corners[order:] + corners[:order]
    expected = [str(seen.index(corner) + 1) for corner in CORNERS]
    assert _proposed(tmp_path / "p", BODY, _drawn(path, corners)) == expected


def test_edges_listed_the_other_way_round_are_proposed_so(tmp_path: Path) -> None:
    names = re.findall(r"(\w+): (\{[^{}]*\})", FRONT.partition("edges: ")[2])
    body = BODY.replace(FRONT, "edges: {" + ", ".join(f"{name}: {about}" for name, about in reversed(names)) + "}")
    # fold from 1 down to 6, hem from 6 to 5, and so on round to the neckline, from 2 to 1.
    assert _proposed(tmp_path / "p", body, _drawn(PATH, CORNERS)) == ["1", "6", "5", "4", "3", "2"]


def test_notches_help_out_where_corners_are_too_few(tmp_path: Path) -> None:
    body = BODY.replace("side: {}", "side: {}, vent: {}")
    notch = '<path class="notch" d="M225 380h-6"/>'
    assert _proposed(tmp_path / "p", body, _drawn(PATH, CORNERS, notch)) == ["1", "2", "3", "4", "n1", "5", "6"]
    assert _proposed(tmp_path / "q", body, _drawn(PATH, CORNERS)) is None


def test_the_command_says_where_the_page_is_and_what_to_write(tmp_path: Path) -> None:
    write_pattern(tmp_path / "vest", "outlines: pieces.svg\n")
    done = notchbook("edges", tmp_path / "vest", "--into", tmp_path / "out")
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip().endswith("vest-edges.html")
    assert "sleeve: perhaps corners: [" in done.stderr
    assert "The neck facing has 3 edges, and its outline 4 corners." in done.stderr


@pytest.mark.parametrize(
    ("snippet", "arguments", "says"),
    [
        ("", [], "names no outlines"),
        ("outlines: pieces.svg\n", ["--piece", "wing"], "has no piece “wing”"),
        ("outlines: [\n", [], "Must be mended"),
    ],
)
def test_what_can_not_be_drawn_is_told_in_plain_words(
    tmp_path: Path, snippet: str, arguments: list[str], says: str
) -> None:
    write_pattern(tmp_path / "vest", snippet)
    done = notchbook("edges", tmp_path / "vest", "--into", tmp_path / "out", *arguments)
    assert done.returncode == 2
    assert says in done.stderr
    assert "Traceback" not in done.stderr


def test_what_a_writer_wrote_is_escaped(tmp_path: Path) -> None:
    body = BODY.replace("front:", '"front <b>&":').replace("neckline:", '"<i>neck":')
    drawing = _drawn(PATH, CORNERS).replace('id="front"', 'id="x" data-name="front &lt;b&gt;&amp;"')
    pattern_in(tmp_path / "p", body, {"p.svg": drawing})
    written = write_edges(tmp_path / "p", tmp_path / "out")
    assert written.target is not None
    page = written.target.read_text(encoding="utf-8")
    assert "<i>neck" not in page
    assert "front &lt;b&gt;&amp;" in page
