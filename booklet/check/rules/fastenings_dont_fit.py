"""Buttons and buttonholes, as many and as far apart as the step says, take more than the edge has.

What it finds: `buttonhole`, `button`, `snap` or `hook` with `count` and `every`, along an edge whose seam line is
shorter than the spaces between them, in any size and fitting. Where the count is for two edges, left and right, each
has half of them.

Why it matters at the machine: the last ones fall off the edge; it is seen when the first buttonholes are already cut.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 1}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: panel.side, count: 7, every: 3 in}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 1}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: panel.side, count: 6, every: 2 1/2 in}]}

Source: common practice, no source: seven of them have six spaces.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from booklet.check.found import Found
from booklet.check.meant import is_on_both_sides
from booklet.check.notions import count_of
from booklet.check.paper.lengths import copies, fittings_of, length_of
from booklet.check.paper.said import rounded, where_wrong
from booklet.length import Length
from booklet.record import NamedTuple
from booklet.sew.bench import Act, Bench, Edge
from booklet.shape.measure import Measures

LEVEL = "error"


class Short(NamedTuple):
    """An edge shorter by `off` than what it should take, in mm."""

    size: str
    fitting: str
    length: float
    off: float


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for act in bench.of("buttonhole", "button", "snap", "hook"):
        every, count = act.entry.measure("every"), count_of(act, bench.view.letter)
        if act.broken or not every or not count or len(act.edges) != 1:
            continue
        (edge,) = act.edges
        number = count // copies(edge) if is_on_both_sides(edge.called) and count % copies(edge) == 0 else count
        wrong = list(_wrong(edge, float(every.millimetres) * (number - 1), bench, measures))
        if wrong:
            yield _found(act, edge, every, number, wrong, bench, measures)


def _wrong(edge: Edge, span: float, bench: Bench, measures: Measures) -> Iterator[Short]:
    for fitting in fittings_of([edge], measures):
        for size, length in zip(measures.sizes, length_of(edge, bench, measures, fitting) or (), strict=False):
            if length is not None and length < span - 1.0:
                yield Short(size, fitting, length, span - length)


def _found(
    act: Act, edge: Edge, every: Length, number: int, wrong: list[Short], bench: Bench, measures: Measures
) -> Found:
    worst = max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes, "are too short")
    fits = _fits(worst.length / (number - 1), every)
    return Found(
        act.entry.place_of("every"),
        act.step,
        f"{where.opening}{edge.called} is {rounded(worst.length, bench.pattern)} long; {number} of them, {every} "
        f"apart, take {every * (number - 1)}{where.ending}.",
        f"Write “every: {fits}”, which fits every size, or make fewer." if fits else "Make fewer of them.",
    )


def _fits(millimetres: float, every: Length) -> Length | None:
    """The next narrower space of eighths of an inch, or of whole millimetres."""
    if every.metric:
        return Length(Fraction(int(millimetres), 10 if every.unit == "cm" else 1), every.unit)
    eighths = int(millimetres / 25.4 * 8)
    return Length(Fraction(eighths, 8), every.unit) if eighths else None
