"""Files of outlines that are broken, hostile or elsewhere: a finding in plain words, soon, and never a traceback."""

from __future__ import annotations

import contextlib
import itertools
import random
import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.finding import Finding
from booklet.read.faults import Faults
from booklet.shape.known import Known
from booklet.shape.outline import BadOutline, OutlineFile
from booklet.shape.read_dxf import read_dxf
from booklet.shape.read_svg import read_svg
from booklet.shape.shapes import Shapes
from tests.shape.making import block, dxf, pattern_in, svg

BODY = "outlines: {}\npieces:\n  front: {{number: 1, cut: {{self: 1}}, edges: {{all: {{}}}}}}\n"
SQUARE = '<g id="front"><path class="cut" d="M0 0h100v80h-100z"/></g>'


def _known(folder: Path) -> Known:
    return Known(pattern_in(folder, BODY.format("p.svg")))


def _findings(folder: Path, outlines: str, files: dict[str, str | bytes] | None = None) -> list[Finding]:
    """After asking for everything."""
    faults = Faults()
    shapes = Shapes(pattern_in(folder, BODY.format(outlines), files), faults)
    for size in shapes.sizes:
        shapes.of("front", size)
    return faults.findings


def _dxf_of_all(document: Any) -> None:
    piece = block(document, "front", ["Piece Name: front", "Size: 8"])
    points = [(0, 0, 0.2), (300, 0, 0), (300, 200, 0)]
    piece.add_polyline2d(points, format="xyb", close=True, dxfattribs={"layer": "1"})
    piece.add_arc((100, 100), 30, 300, 80, dxfattribs={"layer": "8"})
    piece.add_point((300, 50, 5), dxfattribs={"layer": "4"})
    if document.dxfversion > "AC1009":
        piece.add_lwpolyline(points, format="xyb", dxfattribs={"layer": "8"})
        piece.add_spline([(20, 30), (60, 90), (120, 40)], dxfattribs={"layer": "8"})
        piece.add_ellipse((100, 100), (40, 20), 0.6, dxfattribs={"layer": "11"})
        piece.add_mtext("Cut two", dxfattribs={"layer": "15"})
    document.blocks.new("inner").add_line((0, 0), (30, 40), dxfattribs={"layer": "8"})
    piece.add_blockref("inner", (10, 10))


OLD, WHOLE = dxf(_dxf_of_all, "R12"), dxf(_dxf_of_all)
STRANGE = [
    "",
    "-1",
    "0",
    "1e400",
    "nan",
    "inf",
    "1" * 400,
    "\ufffd",
    "LINE",
    "INSERT",
    "BLOCK",
    "ENDBLK",
    "ENDSEC",
    "330",
]


def _outcome(data: bytes) -> str:
    """Any other exception than BadOutline fails the test."""
    try:
        file = read_dxf(data)
    except BadOutline as error:
        return error.says
    assert isinstance(file, OutlineFile)
    return ""


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(0, 2**32), st.sampled_from([1, 3, 20]))
def test_any_change_of_a_dxf_is_read_or_refused(seed: int, number: int) -> None:
    """Lines dropped, doubled, swapped, and strange values: whatever comes of it, no other error."""
    pick = random.Random(seed)
    lines = pick.choice((OLD, WHOLE)).decode().splitlines()
    first = lines.index("BLOCKS")
    for _ in range(number):
        at, kind = pick.randrange(first, len(lines)), pick.randrange(4)
        if kind == 0:
            del lines[at]
        elif kind == 1:
            lines.insert(at, lines[at])
        elif kind == 2:
            lines[at] = pick.choice(STRANGE)
        else:
            other = pick.randrange(first, len(lines))
            lines[at], lines[other] = lines[other], lines[at]
    _outcome("\n".join(lines).encode())


@pytest.mark.parametrize("share", [0.1, 0.3, 0.6, 0.9, 0.99])
def test_a_dxf_that_was_cut_off_is_read_or_refused(share: float) -> None:
    _outcome(WHOLE[: int(len(WHOLE) * share)])
    _outcome(WHOLE[: int(len(WHOLE) * share)] + bytes(range(256)))


def test_blocks_in_each_other_end() -> None:
    """A block that places itself, and blocks that would unfold to a thousand million lines."""

    def draw(document: Any) -> None:
        front = block(document, "front")
        front.add_lwpolyline([(0, 0), (300, 0), (300, 200)], close=True, dxfattribs={"layer": "1"})
        front.add_blockref("front", (1, 1))
        names = [f"level{at}" for at in range(9)]
        for name in names:
            document.blocks.new(name)
        for one, two in itertools.pairwise(names):
            for at in range(40):
                document.blocks.get(one).add_blockref(two, (at, 0))
        front.add_blockref("level0", (0, 0))

    start = time.process_time()
    assert "more things than are read" in _outcome(dxf(draw))
    assert time.process_time() - start < 30


@pytest.mark.parametrize("version", ["R12", "R2010"])
def test_lines_that_are_none_are_passed_over(version: str) -> None:
    """Without length, without radius, without points; the piece beside them is read."""

    def draw(document: Any) -> None:
        piece = block(document, "front")
        piece.add_polyline2d([(0, 0), (300, 0), (300, 200)], close=True, dxfattribs={"layer": "1"})
        inner = {"layer": "8"}
        piece.add_line((5, 5), (5, 5), dxfattribs=inner)
        piece.add_circle((5, 5), 0, dxfattribs=inner)
        piece.add_arc((5, 5), 0, 0, 90, dxfattribs=inner)
        piece.add_polyline2d([], dxfattribs=inner)
        piece.add_polyline2d([(1, 1)], dxfattribs=inner)
        if version != "R12":
            piece.add_lwpolyline([], dxfattribs=inner)
            piece.add_spline(dxfattribs=inner)
            piece.add_ellipse((5, 5), (1e-9, 0), 1.0, dxfattribs=inner)
            piece.add_lwpolyline([(0, 0, 1e300), (1, 1, 0)], format="xyb", dxfattribs=inner)

    file = read_dxf(dxf(draw, version))
    assert [outline.name for outline in file.outlines] == ["front"] or file.bad


def test_a_file_too_large_is_refused_before_it_is_read(tmp_path: Path) -> None:
    start = time.process_time()
    for name, data in (("p.dxf", WHOLE + b"999\n" * 30_000_000), ("p.svg", svg(SQUARE).encode() + b" " * 20_000_000)):
        (fault,) = _findings(tmp_path / name[-3:], name, {name: data})
        assert fault.rule == "outline-not-read"
        assert fault.place.file == "pattern.yaml"
    assert time.process_time() - start < 5


def test_a_million_points_are_refused(tmp_path: Path) -> None:
    """As they are found, not after they were flattened, joined and compared."""
    start = time.process_time()
    path = "M0 0" + "".join(f"L{at % 977} {at % 391}" for at in range(1_000_000)) + "Z"
    (fault,) = _findings(tmp_path / "p", "p.svg", {"p.svg": svg(f'<g id="front"><path class="cut" d="{path}"/></g>')})
    assert "too many points" in fault.says
    path = path[:2_000_000].rpartition("L")[0] + "Z"
    (fault,) = _findings(tmp_path / "p", "p.svg", {"p.svg": svg(f'<g id="front"><path class="cut" d="{path}"/></g>')})
    assert "more than 100,000 points" in fault.says
    assert time.process_time() - start < 30


@pytest.mark.parametrize("kind", ["corner", "notch", "dot", "inner"])
def test_thousands_of_marks_are_refused(tmp_path: Path, kind: str) -> None:
    marks = f'<path class="{kind}" d="M1 1h5"/>' * 3_000
    (fault,) = _findings(tmp_path / "p", "p.svg", {"p.svg": svg(SQUARE.replace("</g>", marks + "</g>"))})
    assert "3000" in fault.says


@pytest.mark.parametrize(
    "data",
    [
        "",
        "<",
        "<svg",
        "<html/>",
        svg("<g>" * 500 + "</g>" * 500),
        svg('<g id="front"><path class="cut" d="M0 0 L1e999 0 L0 5z"/></g>'),
        svg('<g id="front"><path class="cut" d="M0 0 C1e30 0 0 1e30 5 5z"/></g>'),
        svg('<g id="front"><path class="cut" d="A"/></g>'),
        svg('<g id="front"><path class="cut" d="M0 0 A1 2 3"/></g>'),
        svg('<g id="front"><path class="cut" d="M0 0 A1 1 0 7 9 5 5z"/></g>'),
        svg('<g id="front"><polygon class="cut" points="1 2 3"/></g>'),
        svg('<g id="front"><circle class="cut" r="nan"/></g>'),
        svg('<g id="front" transform="scale(0)"><path class="cut" d="M0 0h9v9z"/></g>'),
        svg('<g id="front" transform="matrix(1 2 3)"><path class="cut" d="M0 0h9v9z"/></g>'),
        svg('<g id="front" transform="rotate(1e400)"><path class="cut" d="M0 0h99v99z"/></g>'),
        '<svg xmlns="http://www.w3.org/2000/svg" width="1e300mm" viewBox="0 0 1e-300 1"><g id="front"/></svg>',
        '<?xml version="1.0" encoding="utf-16"?>' + svg(SQUARE),
        '<?xml version="1.0" encoding="ebcdic-cp-us"?>' + svg(SQUARE),
    ],
)
def test_a_bad_svg_is_one_finding_at_its_name(tmp_path: Path, data: str) -> None:
    (fault,) = _findings(tmp_path / "p", "p.svg", {"p.svg": data})
    assert (fault.rule, fault.place.line) == ("outline-not-read", 8)
    assert fault.says.startswith("p.svg: ")


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 2**32))
def test_any_change_of_an_svg_is_read_or_refused(tmp_path: Path, seed: int) -> None:
    pick = random.Random(seed)
    notches = '<g transform="rotate(4)" id="notches"><path d="M0 4l3 3"/></g><text>8</text></g>'
    text = svg(SQUARE.replace("</g>", notches))
    for _ in range(pick.choice((1, 2, 8))):
        at = pick.randrange(len(text))
        text = text[:at] + pick.choice(("", *'0e-.Ma "<>&é')) + text[at + 1 :]
    known = _known(tmp_path / "known")
    with contextlib.suppress(BadOutline):
        assert isinstance(read_svg(text.encode(), known), OutlineFile)


def test_nothing_outside_the_folder_is_read(tmp_path: Path) -> None:
    """By a path, through a link, or by an address."""
    (tmp_path / "secret.svg").write_text(svg(SQUARE))
    folder = tmp_path / "p"
    folder.mkdir()
    (folder / "link.svg").symlink_to(tmp_path / "secret.svg")
    (folder / "links").symlink_to(tmp_path)
    (folder / "loop.svg").symlink_to(folder / "loop.svg")
    for name, rule in (
        ("../secret.svg", "file-outside-folder"),
        (str(tmp_path / "secret.svg"), "file-outside-folder"),
        ("link.svg", "file-outside-folder"),
        ("l*.svg", "file-outside-folder"),
        ("links/secret.svg", "file-outside-folder"),
        ("links/*.svg", "file-outside-folder"),
        ("https://example.org/p.dxf", "address-not-fetched"),
        ("pieces/*.svg", "file-outside-folder"),
        ("none.svg", "missing-file"),
        ("*.dxf", "missing-file"),
        (".", "missing-file"),
    ):
        found = _findings(folder, f'"{name}"')
        assert {fault.rule for fault in found} == {rule}, name
