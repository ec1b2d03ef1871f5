"""No buttonhole comes to the bust line.

What it finds: `buttonhole` with a `count`, along an edge to which the piece's marked line `bust line` comes (listed
under `lines:` and drawn), where none can lie within 1/2 in (1.2 cm) of that line, in any size and fitting. With
`every` the row may begin anywhere that leaves room for all; without, they are spaced evenly along the edge, as the
figure draws them. Buttonholes on `dots` are left out: their places are drawn.

Why it matters at the machine: the front gapes where it is drawn tightest, between two buttons.

Wrong:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 2}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, hem: {}, centre front: {}}
        lines: {bust line: {drawn: l3}}
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.centre front, count: 2}]}

Right:
    outlines: pieces.svg
    pieces:
      front:
        number: 1
        cut: {self: 2}
        edges: {neckline: {}, shoulder: {}, armhole: {}, side: {}, hem: {}, centre front: {}}
        lines: {bust line: {drawn: l3}}
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.centre front, count: 5, every: 3 1/4 in}]}

Source: common practice, no source: spaced evenly, one at the fullest part of the bust; the distance is our choice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_on_both_sides
from booklet.check.notions import count_of
from booklet.check.numbers import limit
from booklet.check.paper.lengths import copies, fittings_of
from booklet.check.paper.said import rounded, where_wrong
from booklet.record import NamedTuple
from booklet.sew.bench import Act, Bench, Edge
from booklet.shape.measure import Measures

LEVEL = "warning"


class Off(NamedTuple):
    """How far the bust line is from the nearest buttonhole, in mm."""

    size: str
    fitting: str
    off: float


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    near = float(limit("bust buttonhole", bench.pattern.metric).millimetres)
    for act in bench.of("buttonhole"):
        count = count_of(act, bench.view.letter)
        if act.broken or not count or len(act.edges) != 1 or act.entry.options.get("dots"):
            continue
        (edge,) = act.edges
        number = count // copies(edge) if is_on_both_sides(edge.called) and count % copies(edge) == 0 else count
        wrong = [row for row in _rows(act, edge, number, bench, measures) if row.off > near]
        if wrong:
            yield _found(act, edge, number, wrong, bench, measures)


def _rows(act: Act, edge: Edge, number: int, bench: Bench, measures: Measures) -> Iterator[Off]:
    every = act.entry.measure("every")
    for fitting in fittings_of([edge], measures):
        row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
        for size, whole, bust in zip(measures.sizes, row.sewn, row.bust, strict=True) if row else ():
            if whole is not None and bust is not None:
                yield Off(size, fitting, _off(whole, bust, number, float(every.millimetres) if every else None))


def _off(whole: float, bust: float, number: int, every: float | None) -> float:
    """How far the nearest lies from a place along an edge, at best; 0 where the row does not fit at all."""
    if every is None:
        return min(abs(whole * (at + 0.5) / number - bust) for at in range(number))
    room = whole - every * (number - 1)
    starts = [bust - every * at for at in range(number)]
    return 0.0 if room < 0 else min(max(-start, start - room, 0.0) for start in starts)


def _found(act: Act, edge: Edge, number: int, wrong: list[Off], bench: Bench, measures: Measures) -> Found:
    worst = max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes, "are so")
    every = act.entry.measure("every")
    spaced = f"{every} apart, wherever the first one stands" if every else "spaced evenly"
    what, leave = ("buttonholes", "leave") if number > 1 else ("buttonhole", "leaves")
    return Found(
        act.place,
        act.step,
        f"{where.opening}{number} {what} along {edge.called}, {spaced}, {leave} the bust line "
        f"{rounded(worst.off, bench.pattern)} from the nearest: the front gapes there{where.ending}.",
        "Mark their places on the outline and name them by “dots”, one at the bust line, or write another number or "
        "space.",
    )
