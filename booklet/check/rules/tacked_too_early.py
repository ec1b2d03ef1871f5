"""A facing or a pocket bag is tacked down before a seam that runs through it.

What it finds: `tack` of a facing or bag of which an edge is sewn only later; and a tack at an edge, such as a pocket
opening, before the seams at its ends.

Why it matters at the machine: the piece has to be opened out again for the seam, and the tacks are in the way.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: neck, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}
      - {id: tack, title: Tack the facing, work: [{tack: neck facing, to: front}]}
      - {id: ends, title: Close the facing, work: [{sew: [neck facing.ends, neck facing.ends]}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: neck, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}
      - {id: ends, title: Close the facing, work: [{sew: [neck facing.ends, neck facing.ends]}]}
      - {id: tack, title: Tack the facing, work: [{tack: neck facing, to: front}]}

Source: published: Goodheart-Willcox (2012), p. 453: facings are tacked at the seams once these are sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, told
from booklet.check.found import Found
from booklet.check.meant import is_folded_in
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("tack"):
        late = None if act.broken else _later(act)
        if late is not None and not told(bench, act.step, late.act.step):
            step, there = act.step, late.act.step
            when = "later in this step" if there is step else f"only later, in {there.called}"
            yield Found(
                act.place,
                step,
                f"{act.entry.things[0].written} is tacked too early: {seam_said(late)}, which runs through it, is sewn "
                f"{when}.",
                put_after("the tacking", there, step),
                (Related("It is sewn here", late.act.place),),
                move=movable(step, there),
                late=there,
            )


def _later(act: Act) -> Seam | None:
    own = [edge for cut in act.cuts if is_folded_in(cut.called) for edge in cut.edges.values()]
    ends = [near for side in act.sides for edge in side for near in edge.neighbours]
    return next((seam for edge in (*own, *ends) for seam in edge.seams if seam.act.time > act.time), None)
