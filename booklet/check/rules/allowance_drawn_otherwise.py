"""The outlines draw another allowance than the pattern says.

What it finds: an edge beside which the file draws a sewing line that lies, along all of it, more than 1/16 in (1.5 mm)
nearer to the cutting line or farther from it than the allowance of the edge, in any size and fitting.

Why it matters at the machine: the step says one allowance and the paper shows another; sewn by the step, the garment
comes out too wide or too tight.

Wrong:
    outlines: pieces.svg
    pieces:
      narrow panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [narrow panel.side, narrow panel.side]}]}

Right:
    outlines: pieces.svg
    seam allowance: 3/8 in
    pieces:
      narrow panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
    steps:
      - {id: join, title: Join the sides, work: [{sew: [narrow panel.side, narrow panel.side]}]}

Source: our choice: 1/16 in; 5/8 in drawn as 1.5 or 1.6 cm is within it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.said import begun, rounded, where_wrong
from booklet.check.words import listed
from booklet.length import Length
from booklet.model.pattern import EdgeSpec, Pattern, Piece
from booklet.record import NamedTuple
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "error"


class Drawn(NamedTuple):
    """width: what is drawn, where it is nearest to what is said; off: from that."""

    size: str
    fitting: str
    width: float
    off: float


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for piece in dict.fromkeys(cut.piece for cut in bench.cuts.values()):
        alike: dict[tuple[Length, Length], list[tuple[EdgeSpec, list[Drawn]]]] = {}
        for spec in piece.edges.values():
            wrong = [] if spec.fold else list(_wrong(piece, spec, bench.pattern, measures))
            if wrong:
                worst = max(wrong, key=lambda row: row.off)
                key = rounded(worst.width, bench.pattern), spec.allowance
                alike.setdefault(key, []).append((spec, wrong))
        for (drawn, said), edges in alike.items():
            yield _found(piece, drawn, said, edges, measures)


def _wrong(piece: Piece, spec: EdgeSpec, pattern: Pattern, measures: Measures) -> Iterator[Drawn]:
    near = float(limit("drawn allowance", pattern.metric).millimetres)
    said = float(spec.allowance.millimetres)
    for fitting in measures.fittings if measures.has_fittings(piece.name) else ("",):
        row = measures.edge(piece.name, spec.name, "", fitting)
        if row is None or not any(row.drawn):
            continue
        for size, drawn in zip(measures.sizes, row.drawn, strict=True):
            if drawn and (drawn[1] < said - near or drawn[0] > said + near):
                width = drawn[1] if drawn[1] < said else drawn[0]
                yield Drawn(size, fitting, width, abs(said - width))


def _found(
    piece: Piece, drawn: Length, said: Length, edges: list[tuple[EdgeSpec, list[Drawn]]], measures: Measures
) -> Found:
    """Edges that are wrong by as much are told together."""
    wrong = [row for _, rows in edges for row in rows]
    where = where_wrong(max(wrong, key=lambda row: row.off), wrong, measures.sizes)
    first, names = edges[0][0], listed(spec.name for spec, _ in edges)
    each = "each of these edges" if len(edges) > 1 else f"{first.name}"
    return Found(
        first.own_allowance.place if first.own_allowance else first.place,
        None,
        begun(
            where, f"the outline of the {piece.name} draws {drawn} of allowance on its {names}, and the pattern says "
        )
        + f"{said}{where.ending}.",
        f"Give {each} an “allowance: {drawn}”, or draw the sewing line {said} inside{where.sized}.",
    )
