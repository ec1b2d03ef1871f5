"""The seam line: the cutting line moved inward, against shapely and closed forms."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import LineString, Polygon

from booklet.shape.arc import circle
from booklet.shape.course import FINE, Course, Part, area, length
from booklet.shape.piece import PieceShape, shaped_edges
from booklet.shape.seamline import Flat

# A front: neckline and armhole are curves. Clockwise on paper.
ARMHOLE = Course((150, 40), (Part((220, 200), ((140, 120), (160, 190))),))
NECKLINE = Course((0, 80), (Part((70, 0), ((40, 80), (60, 40))),))
EDGES = {
    "neckline": NECKLINE,
    "shoulder": Course((70, 0), (Part((150, 40)),)),
    "armhole": ARMHOLE,
    "side": Course((220, 200), (Part((230, 560)),)),
    "hem": Course((230, 560), (Part((0, 560)),)),
    "fold": Course((0, 560), (Part((0, 80)),)),
}


def _shape(widths: dict[str, float], backwards: bool = False) -> PieceShape:
    named: dict[str, tuple[Flat, float]] = {
        name: ((course.reversed() if backwards else course).points(FINE), widths.get(name, 15.0))
        for name, course in EDGES.items()
    }
    if backwards:
        named = dict(reversed(named.items()))
    return PieceShape("front", "", shaped_edges(named, backwards), backwards)


def test_one_allowance_all_round_is_shapelys_mitred_offset() -> None:
    """A piece with curves both ways: area, length and place."""
    shape = _shape({})
    theirs = Polygon(shape.cut).buffer(-15, join_style="mitre", mitre_limit=20)
    assert isinstance(theirs, Polygon)
    ours = Polygon(shape.seam)
    assert ours.is_valid
    assert ours.area == pytest.approx(theirs.area, abs=5)
    assert length(shape.seam) == pytest.approx(theirs.exterior.length, abs=0.3)
    assert ours.symmetric_difference(theirs).area < 10


@pytest.mark.parametrize("backwards", [False, True])
def test_each_edge_has_its_own_allowance_and_neighbours_meet(backwards: bool) -> None:
    """Every point of a seam line lies its allowance from its cutting line; ends meet, whichever way the writer goes."""
    widths = {"hem": 40.0, "fold": 0.0, "shoulder": 10.0}
    shape = _shape(widths, backwards)
    for name, edge in shape.edges.items():
        cut = LineString(edge.cut)
        middle = LineString(edge.seam).segmentize(5).coords[2:-2]
        off = [cut.distance(LineString([point, point])) for point in middle]
        assert off == pytest.approx([widths.get(name, 15.0)] * len(off), abs=0.02), name
    edges = list(shape.edges.values())
    for one, two in zip(edges, [*edges[1:], edges[0]], strict=True):
        assert one.seam[-1] == pytest.approx(two.seam[0])
    assert Polygon(shape.seam).is_valid
    assert area(shape.seam[:-1]) > 0, "the ring itself runs clockwise on paper"


def test_a_rectangle_gets_shorter_by_its_allowances() -> None:
    """Closed form: across less both sides' allowances, down less hem and top."""
    corners = [(0.0, 0.0), (140.0, 0.0), (140.0, 160.0), (0.0, 160.0)]
    widths = {"top": 25.0, "right": 10.0, "bottom": 12.0, "left": 6.0}
    named: dict[str, tuple[Flat, float]] = {
        name: ((corners[at], corners[(at + 1) % 4]), width) for at, (name, width) in enumerate(widths.items())
    }
    found = {name: edge.length for name, edge in shaped_edges(named, False).items()}
    assert found == pytest.approx({"top": 124, "right": 123, "bottom": 124, "left": 123})


def test_a_closed_curve_shrinks_by_its_allowance() -> None:
    """A circle of 100 with an allowance of 15: 2 pi 85. One edge, which meets itself."""
    ring = circle((0, 0), 100, 100).points(FINE)
    (edge,) = shaped_edges({"outer": (ring, 15.0)}, False).values()
    assert edge.length == pytest.approx(2 * math.pi * 85, abs=0.05)


def test_a_tight_inner_curve_leaves_no_loop() -> None:
    """Where the allowance is wider than the curve's radius, the seam line has a corner there."""
    inner = Course((0, 0), (Part((100, 0)), Part((110, 10), ((105.52, 0), (110, 4.48))), Part((110, 100))))
    named: dict[str, tuple[Flat, float]] = {
        "bent": (inner.points(FINE), 15.0),
        "rest": (((110.0, 100.0), (0.0, 100.0), (0.0, 0.0)), 15.0),
    }
    edges = shaped_edges(named, False)
    assert LineString(edges["bent"].seam).is_simple
    assert edges["bent"].length == pytest.approx(80 + 70, abs=0.1)
