"""A binding or piping is too short for the edges along which it goes.

What it finds: `bind` or `pipe` with a piece whose longest edge, times the number that is cut, is less than the seam
lines of the edges together, in any size and fitting; or with a notion whose length on the list is. What is cut on the
bias, or is a knit, may be stretched to fit.

Why it matters at the machine: the strip ends before the edge does, when all the rest of it is sewn on.

Wrong:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      strip: {number: 2, cut: {self: 1}, bias: true, edges: {upper: {}, end: {}, lower: {}, other end: {}}}
    steps:
      - {id: bind, title: Bind the sides, work: [{bind: panel.side, with: strip, width: 1/2 in}]}

Right:
    outlines: pieces.svg
    pieces:
      panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      strip: {number: 2, cut: {self: 3}, bias: true, edges: {upper: {}, end: {}, lower: {}, other end: {}}}
    steps:
      - {id: bind, title: Bind the sides, work: [{bind: panel.side, with: strip, width: 1/2 in}]}

Source: common practice, no source: a strip is as long as its edge, with allowances for the joins and ends besides.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.notions import meant, word_of
from booklet.check.paper.lengths import copies, fittings_of, length_of, run_of
from booklet.check.paper.said import begun, rounded, where_wrong
from booklet.check.paper.sides import gives
from booklet.check.words import listed
from booklet.record import NamedTuple
from booklet.sew.bench import Act, Bench, CutPiece, Edge
from booklet.shape.measure import Measures

LEVEL = "error"


class Short(NamedTuple):
    """A strip and what it should reach, in mm; one: of the pieces of which it is joined."""

    size: str
    fitting: str
    strip: float
    edges: float
    one: float = 0.0

    @property
    def off(self) -> float:
        return self.edges - self.strip


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    bound: dict[object, list[Act]] = {}
    for act in bench.of("bind", "pipe"):
        if act.broken or not act.edges:
            continue
        if act.taken:
            bound.setdefault(act.taken[0], []).append(act)
        else:
            for notion in meant(bench, act)[:1]:
                bound.setdefault(notion.key, []).append(act)
    for acts in bound.values():
        edges = [edge for act in acts for edge in act.edges]
        wrong = [row for row in _strips(acts, edges, bench, measures) if row.off > 1.0]
        if wrong:
            yield _found(acts, wrong, bench, measures)


def _strips(acts: list[Act], edges: list[Edge], bench: Bench, measures: Measures) -> Iterator[Short]:
    taken = acts[0].taken
    for fitting in fittings_of([*edges, *(edge for cut in taken for edge in cut.edges.values())], measures):
        run = run_of(edges, bench, measures, fitting)
        strips = _pieces(taken, bench, measures, fitting) if taken else _bought(acts[0], bench, measures)
        for size, whole, strip in zip(measures.sizes, run or (), strips, strict=False):
            if whole is not None and strip is not None:
                yield Short(size, fitting, strip[0], whole, strip[1])


def _pieces(taken: list[CutPiece], bench: Bench, measures: Measures, fitting: str) -> list[tuple[float, float] | None]:
    """How far a strip reaches in every size, all its pieces joined and stretched; and one of them."""
    found: list[tuple[float, float] | None] = []
    edges = [edge for edge in taken[0].edges.values() if not edge.spec.fold]
    if not edges:
        return [None] * len(measures.sizes)
    lengths = [length_of(edge, bench, measures, fitting) for edge in edges]
    stretch = 1 / (1 - gives(edges[:1], [], bench))
    for at in range(len(measures.sizes)):
        known = [each[at] for each in lengths if each is not None]
        longest = max((length for length in known if length is not None), default=None)
        whole = None if longest is None or len(taken) > 1 or len(known) < len(edges) else longest * copies(edges[0])
        found.append(None if whole is None else (whole * stretch, (longest or 0.0) * stretch))
    return found


def _bought(act: Act, bench: Bench, measures: Measures) -> list[tuple[float, float] | None]:
    notions = meant(bench, act)
    length = notions[0].length.get(bench.view.letter, notions[0].length.get("")) if len(notions) == 1 else None
    return [length and (float(length.length.millimetres), 0.0)] * len(measures.sizes)


def _found(acts: list[Act], wrong: list[Short], bench: Bench, measures: Measures) -> Found:
    act, worst = acts[0], max(wrong, key=lambda row: row.off)
    where = where_wrong(worst, wrong, measures.sizes, "are too long for it")
    name = act.taken[0].called if act.taken else word_of(act)[0]
    bound = listed(edge.called for each in acts for edge in each.edges)
    needs, has = rounded(worst.edges, bench.pattern), rounded(worst.strip, bench.pattern)
    if worst.one:
        mend = f"Cut {math.ceil(worst.edges / worst.one)} of the {name}, or draw it longer."
    else:
        mend = f"List more than {needs} of it, with some for the ends."
    return Found(
        act.entry.place_of("with"),
        act.step,
        begun(where, f"the {name} reaches {has}, and what it goes along ({bound}) is {needs}{where.ending}."),
        mend,
    )
