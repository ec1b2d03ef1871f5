"""A ring is sewn to an edge that is closed to a ring only later.

What it finds: a seam of which one side is closed all round, such as a sleeve cap whose underarm is sewn, while a seam
that crosses the other side, such as the side seam at the armhole, is sewn only afterwards.

Why it matters at the machine: the two sides don't match. The later seam ends at a row that is already there, with its
allowances caught on one side.

Wrong:
    steps:
      - {id: sleeves, title: Sew the sleeves, for: B, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: set, title: Set in the sleeves, for: B, work: [{sew: [[front.armhole, back.armhole], sleeve.cap]}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Right:
    steps:
      - {id: sleeves, title: Sew the sleeves, for: B, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: set, title: Set in the sleeves, for: B, work: [{sew: [[front.armhole, back.armhole], sleeve.cap]}]}

Source: published: the orders of construction in extension bulletins set a sewn sleeve in after the side seam, and a
flat one before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, told
from booklet.check.corners import corners, is_ring
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench, Layer, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for seam in bench.seams:
        crossing = [_crossing_later(layer, seam) for layer in seam.layers]
        late = next((each for each in crossing if each is not None), None)
        if late is None:
            continue
        free = [layer for layer, each in zip(seam.layers, crossing, strict=True) if each is None]
        ring = next((layer for layer in free if is_ring(layer.edges, seam.act.time)), None)
        if ring is not None and not told(bench, seam.act.step, late.act.step):
            yield _found(seam, ring, late)


def _crossing_later(layer: Layer, seam: Seam) -> Seam | None:
    return next((c.seam for c in corners(layer.edges) if c.seam.act.time > seam.act.time), None)


def _found(seam: Seam, ring: Layer, late: Seam) -> Found:
    step, there = seam.act.step, late.act.step
    said = seam_said(late)
    when = "later in this step" if there is step else f"only later, in {there.called}"
    return Found(
        seam.act.place,
        step,
        f"{said[0].upper()}{said[1:]} runs into {seam_said(seam)}, and is sewn {when}; but the other side, "
        f"{listed(edge.called for edge in ring.edges)}, is a closed ring here.",
        put_after("this seam", there, step),
        (Related("It is sewn here", late.act.place),),
        move=movable(step, there),
        late=there,
    )
