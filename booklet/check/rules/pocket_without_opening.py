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

from booklet.check.found import Found
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("pocket"):
        for cut in act.cuts:
            edges = [edge for edge in cut.edges.values() if not edge.spec.fold]
            finished = sum(edge.finished is not None and edge.finished.time < act.time for edge in edges)
            apart = 0 < finished < len(edges)
            if len(edges) > 1 and not apart and all(edge.closed is act for edge in edges) and _is_pocket(cut):
                yield _found(act, cut)


def _is_pocket(cut: CutPiece) -> bool:
    """The entry sews down patches too; those close all their edges."""
    return "pocket" in same_name(cut.called).split()


def _found(act: Act, cut: CutPiece) -> Found:
    first = next(iter(cut.edges.values()))
    thing = act.entry.things[0]
    return Found(
        thing.place,
        act.step,
        f"{thing.written} is sewn down all round, so it has no opening.",
        f"Hem the edge that stays open in an earlier entry, as in “hem: {cut.called}.{first.spec.name}”.",
    )
