"""An elastic is as long as its casing, or too short to be stretched to it.

What it finds: an elastic that is inserted into a casing, and whose cut length in a chart (a row such as `Elastic, cut
length`) is not shorter than the casing, or less than half of it; the casing is measured on its seam line, in every size
and fitting. Without such a row, an elastic on the list of notions that is less than half of the largest casing.

Why it matters at the machine: one holds nothing up; the other can't be drawn in, or bursts its seam.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    charts:
      elastic: {unit: in, rows: {"Elastic, cut length": [15, 16, 17]}}
    steps:
      - {id: waist, title: Make the waist, work: [{casing: panel.top, turns: [1/4 in, 3/8 in]}, {insert: elastic}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    charts:
      elastic: {unit: in, rows: {"Elastic, cut length": [11, 12, 13]}}
    steps:
      - {id: waist, title: Make the waist, work: [{casing: panel.top, turns: [1/4 in, 3/8 in]}, {insert: elastic}]}

Source: our choice: half; that an elastic is cut shorter than its casing is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.paper.reels import Threaded, threaded
from booklet.check.paper.said import begun, rounded, where_wrong
from booklet.craft.load import table
from booklet.finding import Related
from booklet.sew.bench import Act, Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


class Loose(Threaded):
    """off: how far beyond what is sensible it is, in mm."""

    @property
    def off(self) -> float:
        return max(self.cut - self.casing, self.casing * _least() - self.cut)


def _least() -> float:
    return float(table("limits")["least elastic"]["share"]) / 100


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for act in bench.of("insert"):
        rows = [Loose(*row) for row in threaded(act, "elastic", bench, measures)]
        for wrong in (
            [row for row in rows if row.exact and row.cut >= row.casing],
            [row for row in rows if row.cut < row.casing * _least()],
        ):
            if wrong:
                yield _found(act, wrong, bench, measures)


def _found(act: Act, wrong: list[Loose], bench: Bench, measures: Measures) -> Found:
    worst = max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes, "don't fit") if worst.exact else where_wrong(worst, wrong, ())
    cut, casing = rounded(worst.cut, bench.pattern), rounded(worst.casing, bench.pattern)
    bounds = f"between {rounded(worst.casing * _least(), bench.pattern)} and {casing}"
    says = f"the elastic is {cut} long and its casing {casing}"
    if worst.cut >= worst.casing:
        says += ", so that it draws nothing in"
    else:
        says += ", more than it can be stretched to"
    return Found(
        act.place,
        act.step,
        begun(where, says) + f"{where.ending}.",
        begun(where, f"make it {bounds}."),
        (Related("Its length stands here", worst.place),),
    )
