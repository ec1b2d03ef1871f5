"""A cord is too short for its casing.

What it finds: a cord that is inserted into a casing longer than it is: by its cut length in a chart (a row such as
`Cord, cut length`), in any size and fitting; without such a row, by its length on the list of notions, in the largest
size.

Why it matters at the machine: its ends don't come out to be tied.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    notions: [{item: cord, length: 14 in}]
    steps:
      - {id: waist, title: Make the waist, work: [{casing: panel.top, turns: [1/4 in, 3/8 in]}, {insert: cord}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    notions: [{item: cord, length: 26 in}]
    steps:
      - {id: waist, title: Make the waist, work: [{casing: panel.top, turns: [1/4 in, 3/8 in]}, {insert: cord}]}

Source: common practice, no source: a cord goes round and has ends to tie.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.paper.reels import Threaded, threaded
from booklet.check.paper.said import begun, rounded, where_wrong
from booklet.finding import Related
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


class Short(Threaded):
    """off: by how much, in mm."""

    @property
    def off(self) -> float:
        return self.casing - self.cut


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for act in bench.of("insert"):
        wrong = [row for row in map(_short, threaded(act, "cord", bench, measures)) if row.off > 0]
        if not wrong:
            continue
        worst = max(wrong, key=lambda row: row.off)
        where = where_wrong(worst, wrong, measures.sizes if worst.exact else (), "are too short")
        cut, casing = rounded(worst.cut, bench.pattern), rounded(worst.casing, bench.pattern)
        yield Found(
            act.place,
            act.step,
            begun(where, f"the cord is {cut} long and its casing {casing}{where.ending}."),
            begun(where, f"make it longer than {casing}, by what its ends need to be tied."),
            (Related("Its length stands here", worst.place),),
        )


def _short(row: Threaded) -> Short:
    return Short(*row)
