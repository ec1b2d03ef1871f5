"""An edge is staystitched after it is sewn.

What it finds: `staystitch` on an edge that already lies in a seam, or is hemmed or closed.

Why it matters at the machine: staystitching keeps a curve from stretching while it is handled. Once the edge is in a
seam it has stretched already, and the needle can't reach it as a single layer.

Wrong:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: stay, title: Staystitch, work: [{staystitch: front.neckline, at: 1/2 in}]}

Right:
    steps:
      - {id: stay, title: Staystitch, work: [{staystitch: front.neckline, at: 1/2 in}]}
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}

Source: published: Guideline 11.135 Staystitching: immediately after the paper pattern is removed; ICAR e-course, stay
stitching.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("staystitch"):
        late = [edge for edge in act.edges if closed_before(edge, act.time)]
        if late:
            closed = closed_before(late[0], act.time)
            assert closed is not None
            if told(bench, act.step, closed.step):
                continue
            names = list(dict.fromkeys(written(act, edge) for edge in late))
            they_were = "they were" if len(names) > 1 else "it was"
            yield Found(
                place_of(act, late[0]),
                act.step,
                f"{listed(names)} can't be staystitched any more: {they_were} sewn before, "
                f"{where(closed.step, act.step)}.",
                put_before("the staystitching", closed.step, act.step),
                (Related(f"{late[0].called} is sewn here", closed.place),),
                move=movable(act.step, closed.step),
            )
