"""Front and back have the same notches where one edge is sewn to both.

What it finds: an edge, such as a sleeve cap, that is sewn to a run of a front and a back piece (by their names), each
of which has as many notches as the other, of the same kind, in the same groups.

Why it matters at the machine: nothing tells the sewer which way round the sleeve goes, and it fits both ways.

Wrong:
    outlines: pieces.svg
    pieces:
      front band: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      back band: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      long band: {number: 3, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join them, work: [{sew: [[front band.top, back band.top], long band.top]}]}

Right:
    outlines: pieces.svg
    pieces:
      front band: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      double back band: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      long band: {number: 3, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join them, work: [{sew: [[front band.top, double back band.top], long band.top]}]}

Source: common practice, no source: a single notch is the front, a double one the back.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.paper.notches import groups_of
from booklet.check.paper.sides import Pair, pairs_of
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Edge
from booklet.shape.measure import Measures

LEVEL = "warning"
TIMES = {1: "single", 2: "double", 3: "triple"}


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for pair in pairs_of(bench, measures):
        for at, run in enumerate((pair.longer, pair.shorter)):
            other = (pair.shorter, pair.longer)[at]
            if len(run) == 2 and len(other) == 1 and _ways(run) == {"front", "back"}:
                kinds = [_kinds(edge, bench, measures) for edge in run]
                if kinds[0] and kinds[0] == kinds[1] and _kinds(other[0], bench, measures):
                    yield _found(pair, run, other[0], at, len(kinds[0][0]))


def _ways(run: list[Edge]) -> set[str]:
    return {way for edge in run for way in ("front", "back") if way in same_name(edge.cut.called).split()}


def _kinds(edge: Edge, bench: Bench, measures: Measures) -> list[tuple[str, ...]]:
    """The notches of an edge in the first size, each group by the kinds of its notches."""
    row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, measures.fittings[0])
    if row is None or row.sewn[0] is None:
        return []
    return sorted(group.kinds for group in groups_of(row.notches[0], row.sewn[0]))


def _found(pair: Pair, run: list[Edge], other: Edge, at: int, times: int) -> Found:
    front, back = (edge.called for edge in run) if "front" in _ways(run[:1]) else (edge.called for edge in run[::-1])
    return Found(
        pair.places[at],
        pair.act.step,
        f"The notches of {front} and {back} are alike ({TIMES.get(times, 'several')}), so that {other.called} could be "
        "sewn on either way round.",
        f"Draw a second notch, 8 mm or 5/16 in away, beside that of {back} and where {other.called} meets it.",
        (Related("It is sewn to this", pair.places[1 - at]),),
    )
