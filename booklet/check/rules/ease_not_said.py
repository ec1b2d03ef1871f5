"""One edge is a little longer than the edge that it is sewn to, and no step eases it.

What it finds: two sides of a `sew` whose seam lines, measured on the outlines, differ by more than 1/8 in (3 mm) and no
more than hands ease in (3/8 in or 1 cm), in any size and fitting, where no `ease` or `gather` takes the longer one in.

Why it matters at the machine: the sewer finds the ends apart, and doesn't know whether she has cut or pinned amiss.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      full panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [panel.side, full panel.side]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      full panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{ease: full panel.side}, {sew: [panel.side, full panel.side]}]}

Source: our choice: less than 1/8 in is the drawing's own line and a hand's cutting.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.sides import lies_behind, pairs_of, unexplained
from booklet.check.paper.told import told
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    most = float(limit("unsaid ease", bench.pattern.metric).millimetres)
    for pair in pairs_of(bench, measures):
        wrong = unexplained(pair, bench)
        if not wrong or any(row.off > most for row in wrong) or lies_behind(pair.longer):
            continue
        it = told(pair, wrong, bench.pattern, measures)
        yield Found(
            pair.places[1],
            pair.act.step,
            f"{it.where.opening}{it.lengths}, {it.more} less, and no step eases it{it.where.ending}.",
            f"Write “ease: {it.longer}” before the seam, or draw {it.shorter} {it.more} longer{it.where.sized}.",
            it.related,
        )
