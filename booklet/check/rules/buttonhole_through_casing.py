"""Buttonholes for a cord are made when the casing is already sewn.

What it finds: `buttonhole` on an edge that was turned to a casing before, through which something is threaded.

Why it matters at the machine: they would go through both layers of the casing, and the cord would come out on both
sides.

Wrong:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in]}]}
      - {id: holes, title: Make the buttonholes, for: B, work: [{buttonhole: sleeve.hem, notion: elastic, count: 2}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic, into: sleeve.hem}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, for: B, work: [{buttonhole: sleeve.hem, notion: elastic, count: 2}]}
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in]}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic, into: sleeve.hem}]}

Source: common practice, no source: the holes for a cord are made in the outer layer, before the casing is folded.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    filled = {id(insert.target) for insert in bench.of("insert")}
    for act in bench.of("buttonhole"):
        for edge in act.edges:
            casing = closed_before(edge, act.time)
            if casing is None or casing.name != "casing" or id(casing) not in filled:
                continue
            if not told(bench, act.step, casing.step):
                yield Found(
                    place_of(act, edge),
                    act.step,
                    f"The buttonholes on {written(act, edge)} come too late: its casing was sewn before, "
                    f"{where(casing.step, act.step)}, and they would go through both layers.",
                    put_before("the buttonholes", casing.step, act.step),
                    (Related("The casing is sewn here", casing.place),),
                    move=movable(act.step, casing.step),
                )
            break
