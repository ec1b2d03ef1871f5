"""Measures: seam lines in every size, darts taken up, allowances as drawn; kept by content."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from booklet.read.faults import Faults
from booklet.shape import store
from booklet.shape.measure import EdgeSizes, Measures, NotchAt, measure
from tests.command import environment
from tests.shape.making import block, dxf, pattern_in, svg

# A skirt front, half of it: waist 200 across with a dart of 24 taken up, side 500, hem 230.
BODY = """\
sizes: [8, 10]
outlines: pieces.svg
pieces:
  skirt:
    number: 1
    cut: {self: 1 on fold}
    edges: {waist: {}, side: {}, hem: {allowance: 4 cm}, fold: {}}
    corners: [1, 2, 3, 4]
    darts: {waist dart: {crosses: waist, drawn: [l1, l2]}}
    lines: {short line: {drawn: l3}}
  band: {number: 2, cut: {self: 1}, edges: {upper: {}, first end: {}, lower: {}, last end: {}}}
"""


def _skirt(grow: float) -> str:
    """Waist and hem level, side square: lengths follow from the allowances alone."""
    across = 200 + grow
    return (
        f'<path class="cut" d="M0 0H{across}V500H0Z"/>'
        + "".join(
            f'<circle class="corner" cx="{x}" cy="{y}" r="1"/>'
            for x, y in ((0, 0), (across, 0), (across, 500), (0, 500))
        )
        + f'<path class="inner" d="M88 0V15L100 120"/><path class="inner" d="M112 0V15L100 120"/>'
        f'<path class="inner" d="M0 300H{across}"/>'
        f'<path class="notch" d="M40 0v5"/><path class="notch" d="M160 0v5"/>'
        f'<path class="t-notch" d="M{across} 200h-5"/>'
        f'<path class="sew" d="M15 15H{across - 15}"/><path class="sew" d="M{across - 15} 15L{across - 12} 460"/>'
    )


PIECES = svg(
    f'<g id="skirt"><g id="size-8">{_skirt(0)}</g><g id="size-10">{_skirt(20)}</g></g>'
    '<g id="band"><path class="cut" d="M300 0h400v80h-400z"/></g>'
)


def _measured(
    folder: Path, body: str = BODY, pieces: str | bytes = PIECES, name: str = "pieces.svg", steps: str = ""
) -> tuple[Measures, Faults]:
    faults = Faults()
    files = {name: pieces} | ({"10-steps.yaml": steps} if steps else {})
    measures = measure(pattern_in(folder, body, files), faults)
    assert measures is not None
    return measures, faults


def _of(measures: Measures, piece: str, edge: str, fitting: str = "", view: str = "") -> EdgeSizes:
    found = measures.edge(piece, edge, view, fitting)
    assert found is not None
    return found


def _lengths(measures: Measures, piece: str, size: int) -> dict[str, float | None]:
    return {name: edge.sewn[size] for name, edge in (measures.edges(piece) or {}).items()}


def test_edges_are_measured_on_the_seam_line_in_every_size(tmp_path: Path) -> None:
    """Closed forms: a rectangle less its allowances, the hem's own among them; the fold has none."""
    measures, faults = _measured(tmp_path / "skirt")
    assert faults.findings == []
    for size, across in enumerate((200, 220)):
        lengths = {"waist": across - 15 - 24, "side": 500 - 15 - 40, "hem": across - 15, "fold": 445}
        assert _lengths(measures, "skirt", size) == pytest.approx(lengths)
    assert _of(measures, "Band", "UPPER").sewn[0] == _of(measures, "band", "upper").sewn[1]
    assert not measures.has_fittings("skirt")


def test_what_a_dart_takes_up_is_left_out_and_notches_move_with_it(tmp_path: Path) -> None:
    """24 between the legs at the seam line; a notch beyond it comes 24 nearer."""
    measures, _ = _measured(tmp_path / "skirt")
    waist = _of(measures, "skirt", "waist")
    assert waist.sewn == pytest.approx((185 - 24, 205 - 24))
    assert [notch.kind for notch in waist.notches[0]] == ["slit", "slit"]
    assert [notch.place for notch in waist.notches[0]] == pytest.approx([40, 160 - 24])
    assert _of(measures, "skirt", "side").notches == ((NotchAt(185, "t"),),) * 2


def test_legs_that_end_in_the_middle_of_the_allowance_run_on_to_the_seam_line(tmp_path: Path) -> None:
    """Two straight legs, drawn from the cutting line or from the seam line to the point: the same take-up."""
    found = []
    for leg in ("M88 0L100 120", "M88 0L100 120Z"):
        pieces = PIECES.replace("M88 0V15L100 120", leg)
        measures, _ = _measured(tmp_path / "skirt", pieces=pieces)
        found.append(185 - (_of(measures, "skirt", "waist").sewn[0] or 0))
    # The left leg crosses y = 15 at 88 + 12 * 15/120, the right one at 112.
    assert found == pytest.approx([112 - 89.5] * 2, abs=0.01)


def test_the_allowance_that_the_file_draws_is_told_where_it_is_not_the_stated_one(tmp_path: Path) -> None:
    """Least and most: the side's sewing line runs from 15 to 12 away, the waist's 15; hem and fold have none."""
    measures, _ = _measured(tmp_path / "skirt")
    drawn = {name: edge.drawn[0] for name, edge in (measures.edges("skirt") or {}).items()}
    assert drawn["waist"] is None
    least, most = drawn["side"] or (0, 0)
    assert 12 <= least < most <= 15
    assert drawn["hem"] is None
    assert drawn["fold"] is None


def test_a_view_that_cuts_along_a_line_has_the_edges_of_what_is_left(tmp_path: Path) -> None:
    """The short line lies 300 down, with the hem's 40 below its seam line; the waist stays."""
    body = BODY + "views: {A: {name: Long}, B: {name: Short, with: [short]}}\n"
    steps = "section: S\nsteps: [{id: cut, title: Cut, for: short, work: [{cut: skirt.hem, to: short line}]}]\n"
    measures, faults = _measured(tmp_path / "skirt", body, steps=steps)
    assert faults.findings == []
    assert _of(measures, "skirt", "side", view="A").sewn == pytest.approx((445, 445))
    assert _of(measures, "skirt", "side", view="B").sewn == pytest.approx((300 - 15 - 40,) * 2)
    assert _of(measures, "skirt", "hem", view="B").sewn == pytest.approx((185, 205))
    assert _of(measures, "skirt", "waist", view="B") == _of(measures, "skirt", "waist")


def test_a_deep_allowance_is_measured_with_what_it_is_turned_onto(tmp_path: Path) -> None:
    """A quarter circle: at the cut edge its radius is 40 larger than at the fold, above it 40 smaller."""
    import math

    def draw(document: Any) -> None:
        quarter = math.tan(math.pi / 8)
        corners = [(0, 120, 0), (0, 620, -quarter), (620, 0, 0), (120, 0, quarter)]
        style = {"layer": "1"}
        block(document, "skirt").add_lwpolyline(corners, format="xyb", close=True, dxfattribs=style)

    body = BODY.replace("pieces.svg", "pieces.dxf").replace("corners: [1, 2, 3, 4]", "corners: [4, 1, 2, 3]")
    body = body.replace("    darts: {waist dart: {crosses: waist, drawn: [l1, l2]}}\n", "")
    body = body.replace("    lines: {short line: {drawn: l3}}\n", "")
    measures, _ = _measured(tmp_path / "circle", body, dxf(draw), "pieces.dxf")
    cut, onto = _of(measures, "skirt", "hem").turned[0] or (0.0, 0.0)
    assert cut == pytest.approx(620 * (math.pi / 2 - math.asin(15 / 620)), abs=0.05)
    assert onto == pytest.approx(540 * (math.pi / 2 - math.asin(15 / 540)), abs=0.05)
    assert _of(measures, "skirt", "waist").turned == (None, None)
    # The circular segment over its chord; the seam lines lie 40 above the hem's cut edge and 15 below the waist's.
    for name, radius, way in (("hem", 580, 1), ("waist", 135, -1)):
        angle = math.pi / 2 - math.asin(15 / radius)
        mean = radius**2 / 2 * (angle - math.sin(angle)) / (2 * radius * math.sin(angle / 2))
        assert _of(measures, "skirt", name).bow[0] == pytest.approx(way * mean, abs=0.05)


def test_fittings_are_measured_each(tmp_path: Path) -> None:
    """A piece that is drawn by fitting in those; one that is not serves all."""
    body = BODY.replace("sizes: [8, 10]", "sizes: [8]\nfittings: [B cup, D cup]")
    pieces = svg(
        f'<g id="skirt B cup">{_skirt(0)}</g><g id="skirt D cup">{_skirt(30)}</g>'
        '<g id="band"><path class="cut" d="M300 0h400v80h-400z"/></g>'
    )
    measures, faults = _measured(tmp_path / "cups", body, pieces)
    assert faults.findings == []
    assert [_of(measures, "skirt", "hem", cup).sewn for cup in ("B cup", "D cup")] == [(185,), (215,)]
    assert measures.fittings == ("B cup", "D cup")
    assert (measures.has_fittings("skirt"), measures.has_fittings("band")) == (True, False)
    assert _of(measures, "band", "upper", "D cup") == _of(measures, "band", "upper")


def test_a_circle_is_measured_to_a_twentieth_of_a_millimetre(tmp_path: Path) -> None:
    """From a DXF of two quarters by bulges: a skirt of half a circle, waist 120 in radius, 500 long."""
    import math

    def draw(document: Any) -> None:
        piece = block(document, "skirt")
        quarter = math.tan(math.pi / 8)
        piece.add_lwpolyline(
            [(0, 120, 0), (0, 620, -quarter), (620, 0, 0), (120, 0, quarter)],
            format="xyb",
            close=True,
            dxfattribs={"layer": "1"},
        )

    body = BODY.replace("pieces.svg", "pieces.dxf").replace("corners: [1, 2, 3, 4]", "corners: [4, 1, 2, 3]")
    body = body.replace(
        "    darts: {waist dart: {crosses: waist, drawn: [l1, l2]}}\n    lines: {short line: {drawn: l3}}\n", ""
    )
    measures, faults = _measured(tmp_path / "circle", body, dxf(draw), "pieces.dxf")
    assert [fault.rule for fault in faults.findings] == ["piece-not-drawn"]
    found = _lengths(measures, "skirt", 0)
    # The side's allowance of 15 is taken off at its end of both arcs: by the angle whose sine is 15 to the radius.
    waist, hem = 135.0, 580.0
    assert found["waist"] == pytest.approx(waist * (math.pi / 2 - math.asin(15 / waist)), abs=0.05)
    assert found["hem"] == pytest.approx(hem * (math.pi / 2 - math.asin(15 / hem)), abs=0.05)
    assert found["fold"] == pytest.approx(500 - 15 - 40, abs=0.05)


# What is kept


def _kept() -> list[Path]:
    folder = store.folder()
    assert folder is not None
    return sorted(Path(folder).glob("*.json"))


@pytest.fixture(autouse=True)
def _own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "cache"))


def test_measures_and_findings_are_kept_until_something_changes(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second time nothing is read; the finding stands at its place, which may have moved meanwhile."""
    body = BODY.replace("drawn: l3", "drawn: l9")
    first, told = _measured(tmp_path / "skirt", body)
    assert [fault.rule for fault in told.findings] == ["unknown-mark"]
    (path,) = _kept()

    monkeypatch.setattr("booklet.shape.shapes.Shapes._read", None)
    second, again = _measured(tmp_path / "skirt", "# a line more\n" + body)
    assert second.rows == first.rows
    assert [fault.place.line for fault in again.findings] == [fault.place.line + 1 for fault in told.findings]
    assert again.findings[0]._replace(place=told.findings[0].place) == told.findings[0]
    assert _kept() == [path]


@pytest.mark.parametrize("change", ["allowance: 4 cm", "sizes: [8, 10]", "corners: [1, 2, 3, 4]", "drawn: l3"])
def test_what_measuring_asks_of_the_pattern_is_measured_anew(tmp_path: Path, change: str) -> None:
    _measured(tmp_path / "skirt")
    other = {"allowance: 4 cm": "allowance: 3 cm", "sizes: [8, 10]": "sizes: [10, 8]", "drawn: l3": "drawn: l2"}
    _measured(tmp_path / "skirt", BODY.replace(change, other.get(change, "corners: [2, 3, 4, 1]")))
    assert len(_kept()) == 2


def test_other_outlines_are_measured_anew(tmp_path: Path) -> None:
    one, _ = _measured(tmp_path / "skirt")
    two, _ = _measured(tmp_path / "skirt", pieces=PIECES.replace("h400v80", "h390v80"))
    assert one.edge("band", "upper") != two.edge("band", "upper")


@pytest.mark.parametrize(
    "strange",
    [
        b"",
        b"{",
        b"[]",
        b"null",
        b'{"pieces": [], "faults": [["piece nobody", "a", "error", "b", "c"]]}',
        b'{"pieces": [["skirt", "", [], {"waist": [[NaN], [null], [[]], [null]]}]], "faults": []}',
        b'{"pieces": [["skirt", "", [], {"waist": [[true], [null], [[]], [null]]}]], "faults": []}',
        b'{"pieces": [["skirt", "", [], {"waist": [[1, 2, 3], [null], [[]], [null]]}]], "faults": []}',
        b'{"pieces": [["skirt", "", [], {"waist": [[1], [null], [[]]]}]], "faults": []}',
        b'{"pieces": [["skirt", 4, [], {}]], "faults": []}',
        b'{"pieces": [["skirt", "", "hem", {}]], "faults": []}',
        b'{"pieces": {}, "faults": [1]}',
        b"[" * 100_000,
    ],
)
def test_a_strange_file_in_the_cache_is_not_used(tmp_path: Path, strange: bytes) -> None:
    first, _ = _measured(tmp_path / "skirt")
    (path,) = _kept()
    path.write_bytes(strange)
    again, faults = _measured(tmp_path / "skirt")
    assert again.rows == first.rows
    assert faults.findings == []
    json.loads(path.read_bytes())


def test_a_cache_that_cannot_be_written_is_none(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file stands where its folder should be."""
    (tmp_path / "taken").write_text("")
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.setenv(name, str(tmp_path / "taken"))
    measures, faults = _measured(tmp_path / "skirt")
    assert measures.edges("skirt") is not None
    assert faults.findings == []


def test_the_cache_keeps_only_the_latest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """And leaves alone what is not ours."""
    monkeypatch.setattr(store, "MOST_FILES", 3)
    kept_in = store.folder()
    assert kept_in is not None
    folder = Path(kept_in)
    folder.mkdir(parents=True)
    (folder / "mine.json").write_text("kept")
    for width in range(5):
        _measured(tmp_path / "skirt", pieces=PIECES.replace("h400v80", f"h{300 + width}v80"))
    assert len(_kept()) == 4
    assert (folder / "mine.json").read_text() == "kept"


def test_a_check_that_finds_its_measures_loads_no_heavy_library(tmp_path: Path) -> None:
    """Neither ezdxf nor shapely, fontTools or numpy."""
    _measured(tmp_path / "skirt")
    program = (
        "import sys; from booklet.pipeline import check_folder; from pathlib import Path;"
        f"check_folder(Path({str(tmp_path / 'skirt')!r}));"
        "print([name for name in ('ezdxf', 'shapely', 'fontTools', 'numpy') if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], env=environment(), capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
