"""An edge on the fold of the cloth is sewn, hemmed or closed.

What it finds: `sew`, `hem`, `casing`, `bind`, `close` or `zipper` on an edge named fold, or one with `on: fold`.

Why it matters at the machine: cut on the fold, the piece opens out there into one cloth. It has no edge to sew.

Wrong:
    steps:
      - {id: centre, title: Sew the centre front, work: [{sew: [front.fold, front.fold]}]}

Right:
    steps:
      - {id: centre, title: Sew the centre back, work: [{sew: [back.centre back, back.centre back]}]}

Source: common practice, no source: a piece cut on the fold is opened out before it is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import place_of, written
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench
from booklet.sew.hands import CLOSING

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.acts:
        if act.entry.operation.bench not in CLOSING:
            continue
        folds = [edge for edge in act.edges if edge.spec.fold]
        if folds:
            edge = folds[0]
            yield Found(
                place_of(act, edge),
                act.step,
                f"{written(act, edge)} is the fold of the cloth: {edge.cut.called} has no edge there to {act.name}.",
                f"Name another edge; or, if {edge.cut.called} has a seam there, give that edge another name than fold.",
                (Related(f"{edge.called} is drawn on the fold here", edge.spec.place),),
            )
