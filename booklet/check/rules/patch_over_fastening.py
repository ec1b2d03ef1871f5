"""A patch or pocket is sewn over a buttonhole that is already there.

What it finds: `buttonhole` at a dot of a piece before a `pocket` is sewn to that piece at the same dot.

Why it matters at the machine: the patch covers the hole. The hole belongs through patch and cloth.

Wrong:
    pieces:
      front: {number: 1, cut: {self: 1}, edges: {waist: {}, side: {}}}
      patch: {number: 2, cut: {self: 1}, edges: {outer: {}}}
    steps:
      - {id: hole, title: Make the buttonhole, work: [{buttonhole: front.waist, notion: cord, count: 1, dots: d1}]}
      - {id: patch, title: Sew on the patch, work: [{pocket: patch, on: front, dots: d1}]}

Right:
    pieces:
      front: {number: 1, cut: {self: 1}, edges: {waist: {}, side: {}}}
      patch: {number: 2, cut: {self: 1}, edges: {outer: {}}}
    steps:
      - {id: patch, title: Sew on the patch, work: [{pocket: patch, on: front, dots: d1}]}
      - {id: hole, title: Make the buttonhole, work: [{buttonhole: front.waist, notion: cord, count: 1, dots: d1}]}

Source: common practice, no source: a patch strengthens the cloth round a buttonhole, and is sewn on before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import dots_of, movable, place_of, put_after, told
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    pockets = [act for act in bench.of("pocket") if not act.broken and dots_of(act)]
    for act in bench.of("buttonhole") if pockets else ():
        patch = next((other for other in pockets if other.time > act.time and _same_dot(act, other)), None)
        if patch is not None and not told(bench, act.step, patch.step):
            there = "later in this step" if patch.step is act.step else f"only later, in {patch.step.called}"
            yield Found(
                place_of(act, act.edges[0]),
                act.step,
                f"The buttonhole is made too early: {patch.entry.things[0].written} is sewn over its place {there}.",
                put_after("the buttonhole", patch.step, act.step),
                (Related("It is covered here", patch.place),),
                move=movable(act.step, patch.step),
            )


def _same_dot(act: Act, patch: Act) -> bool:
    bases = set(patch.parts[-1].cuts) if patch.parts else set()
    return any(edge.cut in bases for edge in act.edges) and not dots_of(act).isdisjoint(dots_of(patch))
