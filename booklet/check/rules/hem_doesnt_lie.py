"""A deep hem is longer at its cut edge than the cloth onto which it is turned, or shorter.

What it finds: a `hem` of at least 3/4 in (2 cm) whose turned edge, measured between the seam lines beside it, is
longer than the cloth on which it comes to lie by more than a twentieth (a tenth, where it is eased), or shorter by more
than a fiftieth; in any size and fitting.

Why it matters at the machine: a flared hem ripples when it is turned up; one whose sides are not drawn as the mirror of
the garment above it pulls.

Wrong:
    outlines: pieces.svg
    pieces:
      flared panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {allowance: 2 in}, centre: {}}}
    steps:
      - {id: hem, title: Hem it, work: [{hem: flared panel.hem, turns: [1/4 in, 1 3/4 in]}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {allowance: 2 in}, centre: {}}}
    steps:
      - {id: hem, title: Hem it, work: [{hem: panel.hem, turns: [1/4 in, 1 3/4 in]}]}

Source: published: Utah State/Oregon State Ext. 4-H L-87, It's Fun to Sew: the fuller the skirt, the narrower the hem;
its fullness is eased by a thread. How much is our choice.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from booklet.check.found import Found
from booklet.check.paper.lengths import fittings_of
from booklet.check.paper.said import apart, begun, rounded, where_wrong
from booklet.craft.load import kinds, table
from booklet.length import Length
from booklet.model.pattern import Pattern
from booklet.record import NamedTuple
from booklet.sew.bench import Act, Bench, Edge
from booklet.shape.measure import Measures

LEVEL = "warning"


class Turn(NamedTuple):
    """A turned edge and what it lies on, in mm."""

    size: str
    fitting: str
    edge: float
    onto: float

    @property
    def off(self) -> float:
        return abs(self.edge - self.onto)


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for act in bench.of("hem"):
        turns = act.entry.lengths("turns")
        kind = act.entry.options.get("kind")
        if act.broken or not turns or (kind is not None and "turns" not in kinds("hem").get(kind.value, {})):
            continue
        for edge in act.edges:
            wrong = list(_wrong(act, edge, turns, bench, measures))
            if wrong:
                yield _found(act, edge, wrong, bench, measures)


def _wrong(act: Act, edge: Edge, turns: tuple[Length, ...], bench: Bench, measures: Measures) -> Iterator[Turn]:
    """Of a double hem the inner fold counts, not the cut edge inside it."""
    rows = table("limits")
    eased = any(done.name in ("ease", "gather") and done.time < act.time for done in edge.acts)
    longer = float(rows["most ease" if eased else "hem fullness"]["share"]) / 100
    shorter = float(rows["hem want"]["share"]) / 100
    share = min(1.0, float(turns[-1].millimetres / edge.allowance().millimetres)) if edge.allowance() else 0.0
    for fitting in fittings_of([edge], measures):
        row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
        for size, turned in zip(measures.sizes, row.turned, strict=True) if row is not None else ():
            if turned is not None:
                middle, half = (turned[0] + turned[1]) / 2, (turned[0] - turned[1]) / 2 * share
                it = Turn(size, fitting, middle + half, middle - half)
                if it.edge > it.onto * (1 + longer) or it.edge < it.onto * (1 - shorter):
                    yield it


def _found(act: Act, edge: Edge, wrong: list[Turn], bench: Bench, measures: Measures) -> Found:
    worst = max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes, "don't lie flat")
    lengths = [rounded(length, bench.pattern) for length in (worst.edge, worst.onto)]
    more = apart(worst.edge, worst.onto, bench.pattern)
    if worst.edge > worst.onto:
        most = _depth(act, worst, bench.pattern)
        says, mend = "much", f"Make it at most {most} deep{_or_ease(edge, worst)}."
    else:
        says, mend = "little", f"Draw the ends of {edge.called} as the mirror of what lies above the fold."
    return Found(
        act.entry.place_of("turns"),
        act.step,
        begun(where, f"the turned edge of {edge.called} is {lengths[0]} long and comes to lie on {lengths[1]} of cloth")
        + f", {more} too {says}{where.ending}.",
        mend,
    )


def _or_ease(edge: Edge, worst: Turn) -> str:
    shrinks = worst.edge <= worst.onto * (1 + float(table("limits")["most ease"]["share"]) / 100)
    return f", or write “ease: {edge.called}” before it" if shrinks else ""


def _depth(act: Act, worst: Turn, pattern: Pattern) -> Length:
    """That of a hem whose fullness an iron shrinks in, to the eighth of an inch or millimetre below."""
    least = worst.onto * float(table("limits")["hem fullness"]["share"]) / 100
    depth = float(act.entry.lengths("turns")[-1].millimetres) * least / worst.off
    return Length(int(depth), "mm") if pattern.metric else Length(Fraction(max(1, int(depth / 25.4 * 8)), 8), "in")
