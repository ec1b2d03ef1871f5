"""An edge is eased or gathered after it is sewn.

What it finds: `ease` or `gather` on an edge that lies in a seam already.

Why it matters at the machine: the longer edge is held flat by the seam. The rows have nothing left to draw up, and
the seam has tucks in it.

Wrong:
    steps:
      - {id: sleeve, title: Set in the sleeve, for: B, work: [{sew: [[front.armhole, back.armhole], sleeve.cap]}]}
      - {id: ease, title: Ease the cap, for: B, work: [{ease: sleeve.cap, at: 1/2 in}]}

Right:
    steps:
      - {id: ease, title: Ease the cap, for: B, work: [{ease: sleeve.cap, at: 1/2 in}]}
      - {id: sleeve, title: Set in the sleeve, for: B, work: [{sew: [[front.armhole, back.armhole], sleeve.cap]}]}

Source: published: Virginia Coop. Ext. 346-122 (1985), Set-In Sleeves: the cap is eased, then set in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"
DONE = {"ease": ("eased", "the easing"), "gather": ("gathered", "the gathering")}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of(*DONE):
        late = [(edge, by) for edge in act.edges if (by := closed_before(edge, act.time)) and by.name == "sew"]
        if not late or told(bench, act.step, late[0][1].step):
            continue
        edge, closed = late[0]
        names = list(dict.fromkeys(written(act, each) for each, _ in late))
        they_were = "they were" if len(names) > 1 else "it was"
        done, what = DONE[act.name]
        yield Found(
            place_of(act, edge),
            act.step,
            f"{listed(names)} can't be {done} any more: {they_were} sewn before, {where(closed.step, act.step)}.",
            put_before(what, closed.step, act.step),
            (Related(f"{edge.called} is sewn here", closed.place),),
            move=movable(act.step, closed.step),
        )
