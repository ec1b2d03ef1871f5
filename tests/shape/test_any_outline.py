"""Whatever shape a piece has and wherever its marks lie: it is measured, or a finding says why not."""

from __future__ import annotations

import math
import random
from pathlib import Path

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.read.faults import Faults
from booklet.shape.course import FINE
from booklet.shape.measure import measured
from booklet.shape.shapes import Shapes
from tests.shape.making import pattern_in, svg

RULES = {
    "edges-not-told",
    "unknown-mark",
    "outline-not-read",
    "piece-not-drawn",
    "size-not-drawn",
    "outlines-out-of-scale",
}


def _point(pick: random.Random) -> str:
    """On a coarse grid, so that points fall together and lines lie on one another."""
    return f"{pick.randrange(0, 300, 20)} {pick.randrange(0, 300, 20)}"


def _drawing(pick: random.Random) -> str:
    path = f"M{_point(pick)}"
    for _ in range(pick.randrange(2, 9)):
        path += f"L{_point(pick)}" if pick.random() < 0.6 else f"C{_point(pick)} {_point(pick)} {_point(pick)}"
    kinds = pick.choices(("corner", "notch", "dot", "inner", "sew", "fold", "grain", "cutout"), k=pick.randrange(12))
    marks = "".join(f'<path class="{kind}" d="M{_point(pick)}L{_point(pick)}L{_point(pick)}"/>' for kind in kinds)
    return svg(f'<g id="front"><path class="cut" d="{path}Z"/>{marks}</g>')


def _body(pick: random.Random) -> str:
    names = [f"e{at}" for at in range(pick.randrange(1, 7))]
    edges = ", ".join(f"{name}: {{allowance: {pick.choice((0, 0.5, 1, 4, 40))} cm}}" for name in names)
    marks = [pick.choice("123456") if pick.random() < 0.7 else pick.choice(("n1", "d1", "n2", "d2")) for _ in names]
    corners = f", corners: [{', '.join(marks)}]" if pick.random() < 0.7 else ""
    drawn = pick.choice(("l1", "[l1, l2]", "[l2, l1, d1]", "[l1, l1]"))
    darts = f", darts: {{dart: {{crosses: e0, drawn: {drawn}}}}}" if pick.random() < 0.5 else ""
    pleats = f", pleats: {{pleat: {{crosses: e0, drawn: {drawn}}}}}" if pick.random() < 0.3 else ""
    front = f"{{number: 1, cut: {{self: 2}}, edges: {{{edges}}}{corners}{darts}{pleats}}}"
    return f"outlines: p.svg\npieces:\n  front: {front}\n"


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.integers(0, 2**32))
def test_any_outline_is_measured_or_told(tmp_path: Path, seed: int) -> None:
    pick = random.Random(seed)
    faults = Faults()
    pattern = pattern_in(tmp_path / "any", _body(pick), {"p.svg": _drawing(pick)})
    shapes = Shapes(pattern, faults, FINE)
    measures = measured(shapes)
    assert {fault.rule for fault in faults.findings} <= RULES
    shape = shapes.of("front", "")
    assert (shape is None) == bool(faults.findings)
    if shape is not None:
        assert measures.edges("front") is not None
        assert all(math.isfinite(value) for edge in shape.edges.values() for point in edge.seam for value in point)
