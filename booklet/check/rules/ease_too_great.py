"""An edge is eased onto one that is too short for it.

What it finds: an edge with `ease` that is longer than its partner by more than cloth takes in without gathers: 1 3/4 in
(4.5 cm) round a sleeve cap, a tenth of the length of any other edge, in any size and fitting.

Why it matters at the machine: the fullness does not shrink away; the seam puckers, or takes tucks.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      wide panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the tops, work: [{ease: wide panel.top}, {sew: [panel.top, wide panel.top]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      wide panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the tops, work: [{gather: wide panel.top}, {sew: [panel.top, wide panel.top]}]}

Source: published: Virginia Coop. Ext. 346-122, Set-In Sleeves: Tips Beyond the Guidesheet (Kalka, 1985): 1 to 1 1/2 in
of ease in a cap, up to 1 3/4 in as the scan may be read. Elsewhere our choice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_cap
from booklet.check.numbers import limit
from booklet.check.paper.said import rounded
from booklet.check.paper.sides import Pair, pairs_of
from booklet.check.paper.told import told
from booklet.craft.load import table
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for pair in pairs_of(bench, measures):
        if pair.eased is None or pair.eased.name != "ease":
            continue
        wrong = [row for row in pair.lengths if row.one - row.two > _most(pair, row.two, bench)]
        if not wrong:
            continue
        it = told(pair, wrong, bench.pattern, measures)
        most = rounded(_most(pair, it.worst.two, bench), bench.pattern)
        yield Found(
            pair.places[1],
            pair.act.step,
            f"{it.where.opening}{it.lengths}: {it.more} to ease in, and {most} is the most that lies without gathers"
            f"{it.where.ending}.",
            f"Draw {it.longer} at most {most} longer than {it.shorter}{it.where.sized}; or write “gather” for “ease”.",
            it.related,
        )


def _most(pair: Pair, length: float, bench: Bench) -> float:
    """In millimetres, onto an edge of that length."""
    if any(is_cap(edge.spec.name) for edge in pair.longer):
        return float(limit("most cap ease", bench.pattern.metric).millimetres)
    return length * float(table("limits")["most ease"]["share"]) / 100
