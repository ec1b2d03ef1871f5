"""Edges are basted together after they were sewn together.

What it finds: `baste` on two sides all of whose edges lie in one seam already.

Why it matters at the machine: there is nothing left to hold, and the sewer doubts the seam or the order.

Wrong:
    steps:
      - {id: sew, title: Sew the facing, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}

Right:
    steps:
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}
      - {id: sew, title: Sew the facing, work: [{sew: [front.neckline, neck facing.neckline]}]}

Source: common practice, no source: basting holds until the seam is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, place_of, put_before, told, where
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for basting in bench.bastings:
        act = basting.act
        seam = _seam_before(act)
        if seam is not None and not told(bench, act.step, seam.act.step):
            yield Found(
                place_of(act, act.edges[0]),
                act.step,
                f"These edges are sewn together already: {seam_said(seam)} was sewn {where(seam.act.step, act.step)}.",
                put_before("the basting", seam.act.step, act.step),
                (Related("It is sewn here", seam.act.place),),
                move=movable(act.step, seam.act.step),
            )


def _seam_before(act: Act) -> Seam | None:
    """The seam that joined every edge of the basting to the others before it."""
    if act.broken or len(act.edges) < 2 or any(edge.excused for edge in act.edges):
        return None
    for seam in act.edges[0].seams:
        if seam.act.time < act.time and set(act.edges) <= set(seam.edges):
            return seam
    return None
