"""Pieces lie in a figure as they are sewn: edges on one another, the cloth on the side where hands have it."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

import pytest
from shapely import LineString, Point, Polygon

from booklet.draw.flat.bend import direction
from booklet.draw.flat.chain import chained, sampled
from booklet.draw.flat.marks import marked
from booklet.draw.flat.paper import paper_for
from booklet.draw.flat.sheet import sheets
from booklet.draw.flat.spread import CantLay, Lying, Spread, spread_out
from booklet.draw.flat.strokes import Bench
from booklet.pipeline import check_folder
from booklet.plan.picture import Cloth, StepFigure
from booklet.plan.pictures import pictures_of
from booklet.read.faults import Faults
from booklet.shape.course import along, distance, length
from booklet.shape.motion import Motion
from booklet.shape.shapes import Shapes, read_shapes
from tests.plan import small

# Half a millimetre on paper: what the issue asks for, and what a pen of 0.9 pt hides.
LEVEL = 0.5
# Where the lengths of two edges differ, by ease or by stretch, the shorter lies on the longer or is bent along it.
# A hollow edge that is opened out on its own mirror image touches it in one place only.
TANGENT = {("back", "crotch"), ("front", "crotch")}


class Laid(NamedTuple):
    demo: str
    step: str
    figure: StepFigure


@cache
def drawn_of(demo: str) -> tuple[Shapes, tuple[Laid, ...]]:
    checked = check_folder(small.STEPS / demo)
    assert checked.pattern is not None
    shapes = read_shapes(checked.pattern, Faults())
    assert shapes is not None
    drawn = frozenset(name for name in checked.pattern.pieces if shapes.of(name, shapes.figure_size))
    found: dict[StepFigure, Laid] = {}
    for bench in checked.benches:
        for step in bench.steps:
            acts = [act for act in bench.acts if act.step is step]
            for figure in pictures_of(bench, acts, drawn):
                found.setdefault(figure, Laid(demo, step.id, figure))
    return shapes, tuple(found.values())


def figures() -> Iterator[Laid]:
    for demo in small.DEMOS:
        yield from drawn_of(demo)[1]


def brought(figure: StepFigure, spread: Spread) -> Iterator[tuple[Lying, list[Lying]]]:
    """Each cloth that meets others, with them."""
    lying = {figure.cloths.index(one.cloth): one for one in spread.lying}
    for one in spread.lying:
        if one.cloth.meets and one.cloth.how in ("laid", "opened", "under", "over"):
            yield one, [lying[meeting.other] for meeting in one.cloth.meets]


def lines(one: Lying, others: list[Lying]) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Both edges where they lie, at equal shares of their length, in one direction."""
    names = list(dict.fromkeys(meeting.edge for meeting in one.cloth.meets))
    mine = chained([one.edge(name) for name in names])
    theirs = chained([other.edge(meeting.other_edge) for other, meeting in zip(others, one.cloth.meets, strict=True)])
    own, target = sampled(mine.points), sampled(theirs.points)
    if distance(own[0], target[-1]) + distance(own[-1], target[0]) < distance(own[0], target[0]) + distance(
        own[-1], target[-1]
    ):
        target.reverse()
    return own, target


def scale_of(figure: StepFigure, spread: Spread) -> float:
    places = {figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    made = sheets(spread, figure.marks, places)
    guess = [marked(mark, Bench({number: made[at] for number, at in places.items()}, 0.1)) for mark in figure.marks]
    return paper_for([sheet.area for sheet in made], [line for one in guess for line in one.work], 0.0, False).scale


@pytest.mark.parametrize("laid", list(figures()), ids=lambda laid: f"{laid.demo}-{laid.step}-{laid.figure.caption}")
def test_edges_that_meet_lie_on_one_another(laid: Laid) -> None:
    """Within half a millimetre on paper, each piece moved as a whole or bent along the seam."""
    spread = spread_out(laid.figure, drawn_of(laid.demo)[0])
    for one, others in brought(laid.figure, spread):
        own, target = lines(one, others)
        off = max(distance(a, b) for a, b in zip(own, target, strict=True)) * scale_of(laid.figure, spread)
        names = (one.cloth.called, one.cloth.meets[0].edge)
        assert off <= LEVEL or names in TANGENT, f"{names}: {off:.2f} mm on paper"


@pytest.mark.parametrize("laid", list(figures()), ids=lambda laid: f"{laid.demo}-{laid.step}-{laid.figure.caption}")
def test_cloth_lies_on_the_side_of_the_seam_where_hands_have_it(laid: Laid) -> None:
    """Laid on, under or over another: on the same side of the seam as that; opened out: on the other side. Told by
    where the pieces' areas are, a little to the left and to the right of the middle of the seam."""
    spread = spread_out(laid.figure, drawn_of(laid.demo)[0])
    places = {laid.figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    areas = [sheet.area for sheet in sheets(spread, laid.figure.marks, places)]
    for one, others in brought(laid.figure, spread):
        first = others[0]
        seam = one.edge(one.cloth.meets[0].edge).points
        middle, (across, down) = along(seam, length(seam) / 2), direction(seam, length(seam) / 2)
        reach = 25.0 if one.cloth.strip else 4.0  # past the allowance of what is shown with it
        sides = []
        for lying in (one, first):
            whole = Polygon(lying.motion.all(lying.shape.seam)).buffer(0)
            area = areas[spread.lying.index(lying)] if lying.cloth.strip else whole
            near = [Point(middle[0] - down * off, middle[1] + across * off) for off in (reach, -reach)]
            sides.append(area.distance(near[0]) < area.distance(near[1]))
        assert (sides[0] == sides[1]) == (one.cloth.how != "opened"), (one.cloth.called, one.cloth.how)


@pytest.mark.parametrize("demo", small.DEMOS)
def test_every_figure_that_is_asked_for_can_be_laid(demo: str) -> None:
    """No request of a demo names what its outlines lack, or asks a piece to lie as it can't."""
    shapes, found = drawn_of(demo)
    for laid in found:
        try:
            spread_out(laid.figure, shapes)
        except CantLay:
            pytest.fail(f"{laid.step}: {laid.figure.caption}")


def test_a_piece_that_is_moved_as_a_whole_keeps_its_shape() -> None:
    """But for pieces that are bent, gathered or eased, distances on the figure are those of the outline."""
    for laid in figures():
        for one in spread_out(laid.figure, drawn_of(laid.demo)[0]).lying:
            if not isinstance(one.motion, Motion):
                continue
            cut = one.shape.cut
            moved = one.motion.all(cut)
            assert LineString(moved).length == pytest.approx(LineString(cut).length, rel=1e-9)


def test_a_gathered_edge_is_drawn_up_to_what_it_is_sewn_to() -> None:
    """The wrist of the tunic's long sleeve is as long as the cuff's edge there."""
    shapes, found = drawn_of("saltmarsh-tunic")
    figure = next(laid.figure for laid in found if laid.step == "attach cuffs")
    spread = spread_out(figure, shapes)
    sleeve = next(one for one in spread.lying if one.cloth.gathered)
    cuff = next(one for one in spread.lying if one is not sleeve)
    drawn = length(sleeve.edge("wrist").points)
    assert drawn < sleeve.shape.edges["wrist"].length * 0.9
    assert drawn == pytest.approx(cuff.shape.edges["sleeve edge"].length, rel=0.02)


def test_a_pocket_lies_with_its_top_on_its_dots() -> None:
    """The finished top of the tunic's pocket ends on the two dots that the front's outline marks."""
    shapes, found = drawn_of("saltmarsh-tunic")
    figure = next(laid.figure for laid in found if any(cloth.how == "placed" for cloth in laid.figure.cloths))
    spread = spread_out(figure, shapes)
    pocket = next(one for one in spread.lying if one.cloth.how == "placed")
    front = next(one for one in spread.lying if one is not pocket)
    top = pocket.edge("top").points
    for dot in (front.motion(front.shape.holes[3]), front.motion(front.shape.holes[4])):
        assert min(distance(dot, top[0]), distance(dot, top[-1])) < 1.0


def test_what_is_folded_shows_half_of_its_piece() -> None:
    """A band of two equal halves, turned, is half as large as the piece within its seams."""
    shapes, found = drawn_of("saltmarsh-tunic")
    figure = next(laid.figure for laid in found if laid.step == "turn cuffs")
    spread = spread_out(figure, shapes)
    (sheet,) = sheets(spread, figure.marks, {0: 0})
    cloth: Cloth = figure.cloths[0]
    whole = Polygon(sheet.lying.shape.seam).area
    assert cloth.halved
    assert sheet.area.area == pytest.approx(whole / 2, rel=0.2)


@pytest.mark.parametrize("demo", small.DEMOS)
def test_rows_keep_apart_on_paper(demo: str) -> None:
    """A row of topstitching that is measured from a seam or a finished edge is at least 0.65 mm away from it, at the
    figure's scale, however near it truly lies: nearer lines run together in print (0.9 pt is 0.32 mm)."""
    shapes, found = drawn_of(demo)
    inside = {"topstitch", "edgestitch", "understitch"}
    for laid in found:
        spread = spread_out(laid.figure, shapes)
        scale = scale_of(laid.figure, spread)
        places = {laid.figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
        made = sheets(spread, laid.figure.marks, places)
        bench = Bench({number: made[at] for number, at in places.items()}, scale, laid.figure.marks)
        for mark in laid.figure.marks:
            if mark.kind in inside:
                sheet = bench.sheets[mark.cloth]
                ends = sheet.edges([name for name in mark.edges if name in sheet.lying.shape.edges])
                for stroke in marked(mark, bench).strokes:
                    row = LineString(stroke.line)
                    middle = row.interpolate(0.5, normalized=True)
                    off = min(LineString(edge).distance(middle) for edge in ends) * scale
                    assert off >= 0.65, f"{laid.step}: {laid.figure.caption}: {off:.2f} mm"
