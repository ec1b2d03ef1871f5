"""Notches of two edges that are sewn together don't meet.

What it finds: on two sides of a `sew`, a notch on each that has no partner on the other within 1/8 in (3 mm), besides
what is eased in; in any size and fitting. An edge may run either way; a notch may also meet the seam between two edges.
A notch that has no partner in any size marks something else. On a seam that is gathered or stretched, notches are only
counted: the flat side has none that the full one lacks, and single and double ones come in one order. An edge that is
closed in the end (`close`, `slipstitch`) is held against the one on which it comes to lie.

Why it matters at the machine: the sewer matches the notches, and the ends come out apart; or the ends, and mistrusts
the notches.

Wrong:
    outlines: pieces.svg
    pieces:
      notched panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      shifted panel: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [notched panel.side, shifted panel.side]}]}

Right:
    outlines: pieces.svg
    pieces:
      notched panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [notched panel.side, notched panel.side]}]}

Source: our choice: the distance; that notches are matched is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.closings import closings_of
from booklet.check.paper.notch_order import Uneven, uneven_notches
from booklet.check.paper.notches import Apart, notches_apart
from booklet.check.paper.said import apart, begun, rounded, where_wrong
from booklet.check.paper.sides import Pair, pairs_of
from booklet.finding import Related
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "error"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    near = float(limit("seam mismatch", bench.pattern.metric).millimetres)
    for pair in (*pairs_of(bench, measures), *closings_of(bench, measures)):
        wrong = notches_apart(pair, near, bench, measures)
        if wrong:
            yield _found(bench, pair, wrong, measures)
        elif uneven := uneven_notches(pair, bench, measures):
            yield _counted(pair, uneven, measures)


def _found(bench: Bench, pair: Pair, wrong: list[Apart], measures: Measures) -> Found:
    worst = max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes)
    one, other = worst.edges
    met = f"that of {other.called}" if other is not None else "the seam that it should meet"
    first, second = (rounded(place, bench.pattern) for place in worst.places)
    off = apart(*worst.places, bench.pattern)
    return Found(
        pair.places[1],
        pair.act.step,
        begun(where, f"a notch of {one.called} lies {first} from the end of the seam and {met} {second}, so that they ")
        + f"miss each other by {off}{where.ending}.",
        begun(where, f"move {'one of them' if other else 'it'} by {off}."),
        (Related("It is sewn to this", pair.places[0]),),
    )


def _counted(pair: Pair, uneven: list[Uneven], measures: Measures) -> Found:
    worst = max(uneven, key=lambda row: row.off)
    where = where_wrong(worst, uneven, measures.sizes)
    full, flat = pair.called
    if worst.turned:
        says = f"{full} and {flat} are sewn together, and their single and double notches don't come in one order"
        mend = "draw them in the same order on both."
    else:
        at = int(worst.numbers[1] > worst.numbers[0])
        more, fewer = pair.called[at], pair.called[1 - at]
        says = f"{more} has {_notches(worst.numbers[at])} and {fewer}, which is sewn to it, {worst.numbers[1 - at]}"
        mend = f"draw those that are missing on {fewer}, or take out what meets nothing on {more}."
    related = (Related("It is sewn to this", pair.places[0]),)
    return Found(pair.places[1], pair.act.step, f"{where.opening}{says}{where.ending}.", begun(where, mend), related)


def _notches(number: int) -> str:
    return f"{number} notch{'es' if number > 1 else ''}"
