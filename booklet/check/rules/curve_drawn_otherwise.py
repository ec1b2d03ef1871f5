"""The outlines curve an edge the other way than the pattern says.

What it finds: an edge with `curve: inward` whose outline bows outward by more than 1/8 in (3 mm) in the mean, or the
other way round, in any size and fitting.

Why it matters at the machine: an inward curve is clipped and an outward one is notched. By the wrong word the step asks
for the wrong cut, and the turned edge ripples or pulls.

Wrong:
    outlines: pieces.svg
    pieces:
      round panel:
        number: 1
        cut: {self: 2}
        edges: {top: {curve: inward}, side: {}, hem: {}, centre: {}}
    steps:
      - {id: join, title: Join the tops, work: [{sew: [round panel.top, round panel.top]}]}

Right:
    outlines: pieces.svg
    pieces:
      round panel:
        number: 1
        cut: {self: 2}
        edges: {top: {curve: outward}, side: {}, hem: {}, centre: {}}
    steps:
      - {id: join, title: Join the tops, work: [{sew: [round panel.top, round panel.top]}]}

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 452, for clipping and
notching; our choice: 1/8 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit
from booklet.check.paper.said import rounded
from booklet.model.pattern import EdgeSpec, Pattern, Piece
from booklet.sew.bench import Bench
from booklet.shape.measure import Measures

LEVEL = "warning"
_OTHER = {"inward": "outward", "outward": "inward"}


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for piece in dict.fromkeys(cut.piece for cut in bench.cuts.values()):
        for spec in piece.edges.values():
            said = spec.curve
            if said not in _OTHER:
                continue
            worst = max(_against(piece, spec, bench.pattern, measures, 1 if said == "inward" else -1), default=0.0)
            if worst > 0:
                yield Found(
                    spec.place,
                    None,
                    f"The outline of the {piece.name} curves its {spec.name} {_OTHER[said]}, by "
                    f"{rounded(worst, bench.pattern)} in the mean, and the pattern says {said}.",
                    f"Write “curve: {_OTHER[said]}”, or look at the corners: the edge may be named otherwise there.",
                )


def _against(piece: Piece, spec: EdgeSpec, pattern: Pattern, measures: Measures, way: int) -> Iterator[float]:
    """By how much it bows the way (1 outward, -1 inward) that is not said, in mm, where that can be seen."""
    least = float(limit("drawn curve", pattern.metric).millimetres)
    for fitting in measures.fittings if measures.has_fittings(piece.name) else ("",):
        row = measures.edge(piece.name, spec.name, "", fitting)
        for bow in row.bow if row is not None else ():
            if bow is not None and bow * way > least:
                yield bow * way
