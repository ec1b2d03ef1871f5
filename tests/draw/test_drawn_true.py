"""What an illustrator would be ashamed of: rows that run on past the cloth, smooth edges drawn with kinks, an inset
that does not show what is cut away, an edge of the cloth broken up by the end of the picture."""

from __future__ import annotations

import itertools
import math
import re

import pytest
from shapely import LineString, MultiLineString

from booklet.draw.flat.marks import marked
from booklet.draw.flat.paper import paper_for
from booklet.draw.flat.picture import draw_picture
from booklet.draw.flat.sheet import sheets
from booklet.draw.flat.spread import Spread, spread_out
from booklet.draw.flat.strokes import Bench
from booklet.draw.ink import look
from booklet.plan.picture import StepFigure
from tests.draw.test_laid import drawn_of
from tests.plan import small

TENTH = 0.1


def bench_of(figure: StepFigure, spread: Spread) -> Bench:
    places = {figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    made = sheets(spread, figure.marks, places)
    return Bench({number: made[at] for number, at in places.items()}, TENTH, figure.marks)


@pytest.mark.parametrize("demo", small.DEMOS)
def test_rows_end_where_their_cloth_ends(demo: str) -> None:
    """No row of stitching reaches more than 0.2 mm on paper beyond the cloth in which it is."""
    shapes, found = drawn_of(demo)
    for laid in found:
        bench = bench_of(laid.figure, spread_out(laid.figure, shapes))
        for mark in laid.figure.marks:
            area = bench.sheets[mark.cloth].area.buffer(0.2 / TENTH)
            for stroke in marked(mark, bench).strokes:
                if stroke.kind in ("stitch", "baste"):
                    assert area.covers(LineString(stroke.line)), f"{laid.step}: {laid.figure.caption}"


def test_a_curve_far_from_the_seam_along_which_its_piece_is_bent_stays_smooth() -> None:
    """The joggers' back is bent along its side seam; its crotch, a third of a metre away, turns one way only: small
    turns to and fro between points 12 mm apart make up less than a fifth of all turning."""
    shapes, found = drawn_of("pebble-joggers")
    figure = next(laid.figure for laid in found if laid.step == "crotch")
    bench = bench_of(figure, spread_out(figure, shapes))
    mark = next(mark for mark in figure.marks if mark.kind == "stitch" and figure.cloths[mark.cloth].piece == "back")
    (row,) = (LineString(stroke.line) for stroke in marked(mark, bench).strokes)
    points = [row.interpolate(step) for step in range(0, int(row.length), 12)]
    angles = [math.atan2(two.y - one.y, two.x - one.x) for one, two in itertools.pairwise(points)]
    turns = [(two - one + math.pi) % (2 * math.pi) - math.pi for one, two in itertools.pairwise(angles)]
    back = min(sum(turn for turn in turns if turn > 0), -sum(turn for turn in turns if turn < 0))
    assert back < 0.2 * sum(map(abs, turns))


def test_an_inset_on_a_trimmed_seam_shows_what_is_cut_away() -> None:
    """The dashes of what was trimmed off are seen in the figure, and larger in its inset."""
    shapes, found = drawn_of("saltmarsh-tunic")
    figure = next(laid.figure for laid in found if laid.step == "attach bands" and "trimmed" in laid.figure.shows)
    drawing = draw_picture(figure, shapes)
    assert drawing is not None
    dashes = " ".join(str(one) for one in look()["pieces"]["hidden"])
    assert len(re.findall(f'stroke-dasharray="{re.escape(dashes)}"', drawing.svg)) == 2


def test_a_picture_ends_beyond_an_edge_that_is_near_its_end() -> None:
    """The lower edge of the joggers' pocket bag curves just past the place of work: it is seen whole, with room."""
    shapes, found = drawn_of("pebble-joggers")
    figure = next(laid.figure for laid in found if laid.step == "front pocket bags")
    spread = spread_out(figure, shapes)
    bench = bench_of(figure, spread)
    work = [line for mark in figure.marks for line in marked(mark, bench).work]
    paper = paper_for([sheet.area for sheet in bench.sheets.values()], work, 0.0, False)
    bag = next(sheet.area for sheet in bench.sheets.values() if sheet.lying.cloth.piece == "front pocket bag")
    assert not paper.whole
    assert paper.box[3] - bag.bounds[3] >= 10.0


def test_what_does_not_lie_flat_is_not_drawn_flat() -> None:
    """Two backs opened out along their crotch would cover each other: no figure rather than a wrong one."""
    shapes, found = drawn_of("pebble-joggers")
    for laid in found:
        if laid.step == "fasten the cord":
            assert draw_picture(laid.figure, shapes) is None


def test_no_dots_run_through_a_zigzag() -> None:
    """On the interfaced slit facing the zigzag runs in a band that is bare of dots, so that it is seen in grey too."""
    shapes, found = drawn_of("saltmarsh-tunic")
    figure = next(laid.figure for laid in found if [mark.kind for mark in laid.figure.marks] == ["finish"])
    assert figure.cloths[0].fused
    drawing = draw_picture(figure, shapes)
    assert drawing is not None
    paths = re.findall(r"<path d=\"([^\"]*)\"([^>]*)>", drawing.svg)
    (zigzag,) = (
        MultiLineString([[tuple(map(float, point.split())) for point in points] for points in points_of(data)])
        for data, ink in paths
        if look()["stitch"]["colour"] in ink
    )
    rows = [
        re.findall(r"M([-\d.]+) ([-\d.]+)H([-\d.]+)", data) for data, ink in paths if 'stroke-dasharray="0.01' in ink
    ]
    dots = [LineString([(float(x), float(y)), (float(end), float(y))]) for row in rows for x, y, end in row]
    assert dots
    assert min(zigzag.distance(one) for one in dots) > 0.3


def points_of(data: str) -> list[list[str]]:
    """The points of each line of an SVG path of absolute lines."""
    return [re.findall(r"[-\d.]+ [-\d.]+", one) for one in data.split("M")[1:]]
