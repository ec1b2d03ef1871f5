"""Edges that are sewn together are not of one length.

What it finds: two sides of a `sew` whose seam lines, measured on the outlines, differ by more than hands ease in (3/8
in or 1 cm), in any size and fitting, where no `ease` or `gather` takes the longer one in. Darts and pleats that are
drawn are taken off, the edges of a run added up. An edge that lies behind the other may be as much smaller as the
cloth turns; a knit band is stretched to what it is sewn to; and a side whose ends are finished before, such as a
collar, may reach less far: both as long as it is so in every size. An edge that is closed in the end (`close`,
`slipstitch`) is held against the one on which it comes to lie, as the inner edge of a band on its outer one.

Why it matters at the machine: one layer ends before the other, at a notch, a dart or a hem that should have met.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      long panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [panel.side, long panel.side]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      wide panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [panel.side, wide panel.side]}]}

Source: our choice: a difference that hands can ease in without being told. Darts are sewn before they are crossed:
published, OSU 4-H 320-14.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.closings import closings_of
from booklet.check.paper.sides import pairs_of, unexplained
from booklet.check.paper.told import told
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "error"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    most = float(limit("unsaid ease", bench.pattern.metric).millimetres)
    for pair in (*pairs_of(bench, measures), *closings_of(bench, measures)):
        wrong = [row for row in unexplained(pair, bench) if row.off > most]
        if not wrong:
            continue
        it = told(pair, wrong, bench.pattern, measures)
        eased = pair.act.name == "sew" and it.worst.off < 0.1 * it.worst.two
        yield Found(
            pair.places[1],
            pair.act.step,
            f"{it.where.opening}{it.lengths}, {it.more} too short for it{it.where.ending}.",
            f"Draw {it.shorter} {it.more} longer{it.where.sized}, or {it.longer} as much shorter."
            + (f" Where it is meant, write “ease: {it.longer}” before the seam." if eased else ""),
            it.related,
        )
