"""Any operations on any things, in any order: the bench records what can't be, and never breaks down."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.check.engine import check
from booklet.craft.load import constructions, kinds, operations
from booklet.model.build import build_pattern
from booklet.plan.build import make_plan
from booklet.read.faults import Faults
from tests.sew.making import source_of

PIECES: dict[str, Any] = {
    "front": {
        "number": "1",
        "cut": {"self": "1 on fold", "fusible": "1 on fold"},
        "edges": {"neck": {"curve": "inward"}, "side": {}, "hem": {"allowance": "2 cm"}, "fold": {}},
        "darts": {"dart": {"crosses": "side"}},
        "pleats": {"pleat": {"crosses": "neck"}},
        "lines": ["line"],
    },
    "back": {"number": "2", "cut": {"self": "2", "lining": "2"}, "edges": {"neck": {}, "side": {}, "hem": {}}},
    "strip": {"number": "3", "cut": {"self": "1"}, "edges": {"long": {}, "end": {}}},
}
HEAD = {
    "materials": {
        "self": {"name": "Cloth"},
        "fusible": {"name": "Interfacing", "kind": "interfacing"},
        "lining": {"name": "Lining", "kind": "lining"},
    },
    "notions": [{"item": "button", "count": "3"}, {"item": "zipper"}, {"item": "bias binding"}],
    "pieces": PIECES,
}
PARTS = (
    "front",
    "back",
    "strip",
    "body",
    "bag",
    "left front",
    "right back",
    "left strip",
    "front in fusible",
    "nobody",
)
EDGES = ("neck", "side", "hem", "fold", "long", "end", "dart", "pleat", "line", "nothing")
MEASURES = ("1 cm", "5 mm", "1/4 in", "2 cm", "20 cm")
parts = st.sampled_from(PARTS)
edges = st.builds("{}.{}".format, parts, st.sampled_from(EDGES))
words = st.sampled_from(("seam", "first seam", "open", "toward back", "toward left front", "flat", "up", *PARTS))
measures = st.sampled_from(MEASURES)


def some(of: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return of | st.lists(of, min_size=1, max_size=3)


MAIN: dict[str, st.SearchStrategy[Any]] = {
    "edges": some(edges),
    "sides": st.lists(some(edges), min_size=2, max_size=3),
    "edges or sides": some(edges),
    "parts": some(parts),
    "things": some(parts | edges),
    "darts": some(edges),
    "seam or edges": some(edges) | words,
    "measure": measures,
    "measures": some(measures),
    "spacing": st.sampled_from(("every 1 cm", "corners", "to the stitching")),
    "direction": words,
    "notion": st.sampled_from(("elastic", "button", "cord")),
}
OPTION: dict[str, st.SearchStrategy[Any]] = {
    "measure": measures,
    "measures": some(measures),
    "construction": st.sampled_from(sorted(constructions())),
    "finish": st.sampled_from(("overlock", "zigzag", "pink", "clean", "bind")),
    "count": st.sampled_from(("3", "0")),
    "things": some(parts | edges),
}


def option(kind: str) -> st.SearchStrategy[Any]:
    if kind.endswith(" kind"):
        return st.sampled_from(sorted(kinds(kind.removesuffix(" kind"))))
    return OPTION.get(kind, parts | edges | words | st.sampled_from(("bias binding", "hand", "first seam")))


@st.composite
def entries(draw: st.DrawFn) -> dict[str, Any]:
    operation = operations()[draw(st.sampled_from(sorted(operations())))]
    entry = {operation.name: draw(MAIN[operation.takes])}
    wanted = draw(st.lists(st.sampled_from(sorted(operation.options)), unique=True)) if operation.options else []
    return entry | {name: draw(option(operation.options[name])) for name in wanted}


@st.composite
def steps(draw: st.DrawFn) -> list[dict[str, Any]]:
    made = []
    for number in range(draw(st.integers(1, 6))):
        step = {"id": f"s{number}", "title": f"Step {number}", "work": draw(st.lists(entries(), max_size=4))}
        if draw(st.booleans()):
            step["makes"] = draw(st.sampled_from(("body", "bag", "front")))
        if draw(st.booleans()):
            step["uses"] = draw(some(parts))
        made.append(step)
    return made


@settings(max_examples=300, deadline=None, derandomize=True)
@given(steps())
def test_no_work_breaks_the_bench(work: list[dict[str, Any]]) -> None:
    """It is sewn, checked and put into words; an edge is closed by an act that was done to it, and keeps its place."""
    faults = Faults()
    pattern = build_pattern(source_of(HEAD, work, faults), faults)
    assert pattern is not None
    findings, (bench,) = check(pattern)
    assert all(finding.says and finding.mend for finding in findings)
    for cut in bench.cuts.values():
        for key, edge in cut.edges.items():
            assert edge.cut is cut
            assert key.startswith(edge.name)
            assert all(edge in near.neighbours for near in edge.neighbours)
    make_plan(pattern, [bench], "A")
