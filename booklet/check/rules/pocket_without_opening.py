"""A pocket is sewn down all round.

What it finds: `pocket` on a part called a pocket of which no edge was hemmed, sewn or finished apart from the others
before: the stitching then takes every edge. A patch is meant to be sewn down all round, and is not found.

Why it matters at the machine: no hand gets in.

Wrong:
    steps:
      - {id: pocket, title: Sew on the pocket, work: [{pocket: pocket, on: front}]}

Right:
    steps:
      - {id: top, title: Hem the pocket, work: [{hem: pocket.top, turns: [1/2 in, 1/2 in]}]}
      - {id: pocket, title: Sew on the pocket, work: [{pocket: pocket, on: front}]}

Source: common practice, no source: the opening of a pocket is hemmed before the pocket is sewn on.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, sewn_shut, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("pocket"):
        for cut in act.cuts:
            if sewn_shut(cut, act) and _is_pocket(cut):
                yield _found(bench, act, cut)


def _is_pocket(cut: CutPiece) -> bool:
    """The entry sews down patches too; those close all their edges."""
    return "pocket" in same_name(cut.called).split()


def _found(bench: Bench, act: Act, cut: CutPiece) -> Found:
    thing = act.entry.things[0]
    later = next((m for m in bench.missing if m.kind == "already closed" and m.edge and m.edge.cut is cut), None)
    if later is None:
        first = next(iter(cut.edges.values()))
        says = f"{thing.written} is sewn down all round, so it has no opening."
        mend = f"Hem the edge that stays open in an earlier entry, as in “hem: {cut.called}.{first.spec.name}”."
        return Found(thing.place, act.step, says, mend)
    return Found(
        thing.place,
        act.step,
        f"{thing.written} is sewn down all round: {later.written} is to be its opening, but is dealt with only later, "
        f"{where(later.step, act.step)}.",
        put_after(f"the sewing down of {thing.written}", later.step, act.step),
        (Related("Its opening is dealt with here", later.place),),
        move=movable(act.step, later.step),
    )
