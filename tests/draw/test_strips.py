"""Bindings, plackets, welt pockets, pleats and tucks have a figure that shows what is done. The blouse beside this
file is no whole garment: it has one of each."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from shapely import LineString, union_all

from booklet.draw.flat.marks import marked
from booklet.draw.flat.picture import draw_picture
from booklet.draw.flat.sheet import sheets
from booklet.draw.flat.spread import spread_out
from booklet.draw.flat.strokes import Bench, Marked
from booklet.pipeline import check_folder
from booklet.plan.picture import StepFigure
from booklet.plan.pictures import pictures_of
from booklet.read.faults import Faults
from booklet.shape.shapes import Shapes, read_shapes

BLOUSE = Path(__file__).parent / "blouse"
# Life size to a tenth.
SCALE = 0.1
INCH = 25.4


def figure_of(folder: Path, step: str) -> tuple[StepFigure, Shapes]:
    checked = check_folder(folder)
    assert checked.pattern is not None
    shapes = read_shapes(checked.pattern, Faults())
    assert shapes is not None
    drawn = frozenset(name for name in checked.pattern.pieces if shapes.of(name, shapes.figure_size))
    bench = checked.benches[0]
    (figure,) = pictures_of(bench, [act for act in bench.acts if act.step.id == step], drawn)
    return figure, shapes


def made_of(figure: StepFigure, shapes: Shapes) -> tuple[Bench, Marked]:
    spread = spread_out(figure, shapes)
    places = {figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    made = sheets(spread, figure.marks, places)
    bench = Bench({number: made[at] for number, at in places.items()}, SCALE, figure.marks)
    return bench, marked(figure.marks[0], bench)


def changed(tmp_path: Path, old: str, new: str) -> Path:
    folder = tmp_path / "blouse"
    shutil.copytree(BLOUSE, folder)
    steps = folder / "10-sew.yaml"
    assert old in steps.read_text()
    steps.write_text(steps.read_text().replace(old, new))
    return folder


def test_a_bound_edge_shows_its_binding_as_wide_as_it_is() -> None:
    """Half an inch along the neckline, right side up, with a row inside it, near its fold."""
    figure, shapes = figure_of(BLOUSE, "neck")
    bench, made = made_of(figure, shapes)
    assert figure.cloths[0].face == "right"
    assert {patch.face for patch in made.patches} == {"right"}
    band = union_all([patch.area for patch in made.patches])
    edge = LineString(bench.sheets[0].edges(["neckline"])[0])
    assert band.area / (2 * edge.length) == pytest.approx(INCH / 2, rel=0.2)
    rows = [LineString(stroke.line) for stroke in made.strokes if stroke.kind == "stitch"]
    assert rows
    assert all(band.buffer(1.0).covers(row) for row in rows)
    assert "bound with the neck binding, 1/2 in wide" in figure.shows


def test_a_binding_sewn_down_by_hand_is_seen_from_the_wrong_side() -> None:
    figure, shapes = figure_of(BLOUSE, "wrist")
    _, made = made_of(figure, shapes)
    assert figure.cloths[0].face == "wrong"
    assert {stroke.kind for stroke in made.strokes} == {"hand"}


@pytest.mark.parametrize(("kind", "face"), [("continuous", "wrong"), ("tower", "right")])
def test_a_placket_lies_over_its_whole_slit(tmp_path: Path, kind: str, face: str) -> None:
    """A tower is seen from the right side and reaches beyond the slit; the slit itself is shown."""
    figure, shapes = figure_of(changed(tmp_path, "kind: continuous", f"kind: {kind}"), "placket")
    _, made = made_of(figure, shapes)
    slit = next(LineString(stroke.line) for stroke in made.strokes if stroke.kind == "cut")
    assert figure.cloths[0].face == face
    (patch,) = made.patches
    assert patch.area.buffer(0.5).covers(slit)
    assert (patch.area.bounds[3] - patch.area.bounds[1] > slit.length + 10) == (kind == "tower")


def test_a_welt_pocket_stands_on_its_marked_line() -> None:
    """One on each half of a front that was cut on the fold, as long as the line."""
    figure, shapes = figure_of(BLOUSE, "pocket")
    _, made = made_of(figure, shapes)
    assert len(made.patches) == 2
    for patch in made.patches:
        left, _, right, _ = patch.area.bounds
        assert right - left == pytest.approx(120.0)


@pytest.mark.parametrize("toward", ["side", "centre front"])
def test_the_arrow_of_a_pleat_goes_where_it_is_folded(tmp_path: Path, toward: str) -> None:
    """Toward the side it moves away from the middle, toward the centre front to it, on both halves."""
    figure, shapes = figure_of(changed(tmp_path, "toward: side", f"toward: {toward}"), "pleats")
    bench, made = made_of(figure, shapes)
    centre = bench.sheets[0].centre
    assert centre is not None
    arrows = [stroke.line for stroke in made.strokes if stroke.kind == "arrow"]
    assert len(arrows) == 2
    for line in arrows:
        outward = abs(line[-1][0] - centre[0][0]) > abs(line[0][0] - centre[0][0])
        assert outward == (toward == "side")


@pytest.mark.parametrize("step", ["pleats", "tucks", "pocket", "placket", "neck", "wrist"])
def test_each_has_a_figure_and_tells_in_words_what_it_shows(step: str) -> None:
    figure, shapes = figure_of(BLOUSE, step)
    assert draw_picture(figure, shapes) is not None
    assert len(figure.caption.split()) <= 6
    assert figure.shows.endswith(".")
