"""A layer that lies behind another is larger than that.

What it finds: an under or inner collar, a facing or a lining whose edge is longer than the edge of the outer piece to
which it is sewn, by more than 1/16 in (1.5 mm), in any size and fitting. Lengths are measured on the seam lines.

Why it matters at the machine: the layer behind buckles, or its seam rolls to the outside.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      full panel facing: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Face the side, work: [{sew: [panel.side, full panel facing.side]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      panel facing: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Face the side, work: [{sew: [panel.side, panel facing.side]}]}

Source: common practice, no source: an under collar is about 1/8 in smaller than the upper collar; a facing is as large
as the edge, or a little smaller.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.sides import lies_behind, pairs_of
from booklet.check.paper.told import told
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    least = float(limit("larger behind", bench.pattern.metric).millimetres)
    most = float(limit("unsaid ease", bench.pattern.metric).millimetres)
    for pair in pairs_of(bench, measures):
        if not pair.lengths or pair.eased is not None or pair.free:
            continue
        behind = lies_behind(pair.longer), lies_behind(pair.shorter)
        if behind not in ((True, False), (False, True)):
            continue
        sign = 1 if behind[0] else -1
        wrong = [row for row in pair.lengths if least < sign * (row.one - row.two) <= most]
        if wrong and not any(row.off > most for row in pair.lengths):
            it = told(pair, wrong, bench.pattern, measures)
            yield Found(
                pair.places[0] if behind[0] else pair.places[1],
                pair.act.step,
                f"{it.where.opening}{it.lengths}: what lies behind is {it.more} larger{it.where.ending}.",
                f"Draw {it.longer} {it.more} shorter{it.where.sized}, or a little more, so that the seam rolls inward.",
            )
