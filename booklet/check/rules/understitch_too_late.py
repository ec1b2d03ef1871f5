"""A facing is understitched when it can no longer be laid out flat.

What it finds: `understitch` after every other edge of the facing was sewn to something, or after the facing was
tacked down.

Why it matters at the machine: to understitch, the sewer opens the facing out to a single layer under the foot. Sewn
down all round, it can't be opened.

Wrong:
    steps:
      - {id: facing, title: Face the neck,
         work: [{sew: [front.neckline, neck facing.neckline]}, {press: toward neck facing}]}
      - {id: tack, title: Tack the facing, work: [{tack: neck facing}]}
      - {id: under, title: Understitch, work: [{understitch: neck facing}]}

Right:
    steps:
      - {id: facing, title: Face the neck,
         work: [{sew: [front.neckline, neck facing.neckline]}, {press: toward neck facing}]}
      - {id: under, title: Understitch, work: [{understitch: neck facing}]}
      - {id: tack, title: Tack the facing, work: [{tack: neck facing}]}

Source: published: Goodheart-Willcox (2012), p. 453, steps 1 to 7: understitch, then turn and press, then tack the
free edge.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import SEWN, between, handlings, movable, put_before, told, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    acts = bench.of("understitch")
    tacked = handlings(bench, "tack") if acts else {}
    for act in acts:
        seam = act.seam
        if seam is None or act.broken:
            continue
        mine = [cut for cut in act.cuts if any(edge.cut is cut for edge in seam.edges)]
        held = next((tack for cut in mine if (tack := between(tacked.get(cut, []), seam.act.time, act.time))), None)
        closing = held or _all_round(mine, seam, act)
        if closing is not None and not told(bench, act.step, closing.step):
            yield _found(act, closing)


def _all_round(cuts: list[CutPiece], seam: Seam, act: Act) -> Act | None:
    """The act that closed the last free edge of the facing after its seam was sewn; None while an edge is free."""
    others = [edge for cut in cuts for edge in cut.edges.values() if seam not in edge.seams and not edge.spec.fold]
    closings = []
    for edge in others:
        closed = edge.closed
        if closed is None or closed.name not in SEWN or not seam.act.time < closed.time < act.time:
            return None
        closings.append(closed)
    return max(closings, key=lambda each: each.time, default=None)


def _found(act: Act, closing: Act) -> Found:
    thing = act.entry.things[0]
    done = "tacked down" if closing.name == "tack" else "sewn down all round"
    return Found(
        thing.place,
        act.step,
        f"{thing.written} can't be laid flat and understitched: it was {done} before, {where(closing.step, act.step)}.",
        put_before("the understitching", closing.step, act.step),
        (Related(f"It is {done} here", closing.place),),
        move=movable(act.step, closing.step),
    )
