"""A dart, pleat or tuck is sewn after the edge that it runs into.

What it finds: `dart`, `pleat` or `tuck` where an edge that it `crosses` is already sewn, hemmed or closed.

Why it matters at the machine: its end lies in the seam. It can't be folded any more without unpicking.

Wrong:
    steps:
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}

Right:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 468; the unit method: darts
come first.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import DARTS, closed_before, movable, put_before, told, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of(*DARTS):
        for cut, name in act.darts:
            found = _late(act, cut, name)
            if found and not told(bench, act.step, *_closers(cut)):
                yield found


def _closers(cut: CutPiece) -> list[Step]:
    return [edge.closed.step for edge in cut.edges.values() if edge.closed]


def _late(act: Act, cut: CutPiece, name: str) -> Found | None:
    dart = cut.piece.darts[name]
    for crossed in dart.crosses:
        edge = cut.edges.get(same_name(crossed.value))
        closed = closed_before(edge, act.time) if edge else None
        if edge is not None and closed is not None:
            place = next((thing.place for thing in act.entry.things if thing.edge == name), act.place)
            short = f"The {dart.name} can't be sewn any more: it runs into {edge.called}, which was sewn before"
            return Found(
                place,
                act.step,
                f"{short}, {where(closed.step, act.step)}.",
                put_before(f"the {dart.name}", closed.step, act.step),
                (Related(f"{edge.called} is sewn here", closed.place),),
                move=movable(act.step, closed.step),
                short=f"{short}.",
            )
    return None
