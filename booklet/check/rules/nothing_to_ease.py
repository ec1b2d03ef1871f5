"""An edge is eased or gathered that is no longer than what it is sewn to.

What it finds: `ease` or `gather` along an edge whose seam line is not longer than its partner's by more than 1/8 in (3
mm), in any size and fitting.

Why it matters at the machine: the sewer draws up a thread that has nothing to take in, and the edge comes out short.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      wide panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{ease: panel.side}, {sew: [panel.side, wide panel.side]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      full panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{ease: full panel.side}, {sew: [panel.side, full panel.side]}]}

Source: published: a cap's ease is its seam length less the armhole's, and not below nothing: teaching pages on sleeve
drafting. The 1/8 in is our choice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.sides import eased, pairs_of
from booklet.check.paper.told import told
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    near = float(limit("seam mismatch", bench.pattern.metric).millimetres)
    for pair in pairs_of(bench, measures):
        fullness = pair.eased or eased(pair.shorter, pair.act)
        wrong = [row for row in pair.lengths if row.off <= near] if fullness is not None else []
        if fullness is None or not wrong:
            continue
        it = told(pair, wrong, bench.pattern, measures)
        drawn = "gathered" if fullness.name == "gather" else "eased in"
        yield Found(
            fullness.place,
            fullness.step,
            f"{it.where.opening}{it.lengths}, so that nothing is there to be {drawn}{it.where.ending}.",
            f"Take out “{fullness.name}”, or draw that edge longer than the other by what is to be {drawn}.",
            it.related,
        )
