"""An edge is closed before the seam that it belongs to is sewn.

What it finds: `close` or `slipstitch` of a gap or opening before the seam in which it was left; and of the inner edge
of a collar, cuff or band before its outer edge is sewn to the garment, or before its ends are sewn.

Why it matters at the machine: there is nothing to close yet. The inner edge of a collar lies over the seam of the outer
one, and a gap is the part of a seam that was left open.

Wrong:
    pieces:
      outer collar: {number: 1, cut: {self: 1}, edges: {neck: {}, end: {}, top: {}}}
      inner collar: {number: 2, cut: {self: 1}, edges: {neck: {}, end: {}, top: {}}}
      body: {number: 3, cut: {self: 1}, edges: {neckline: {}, fold: {}}}
    steps:
      - {id: collar, title: Sew the collar, work: [{sew: [[outer collar.end, outer collar.top], [inner collar.end,
         inner collar.top]]}, {trim: 1/4 in}, {turn: [outer collar, inner collar]}]}
      - {id: close, title: Close the collar, work: [{close: inner collar.neck, by: hand}]}
      - {id: attach, title: Sew on the collar, work: [{sew: [body.neckline, outer collar.neck]}]}

Right:
    pieces:
      outer collar: {number: 1, cut: {self: 1}, edges: {neck: {}, end: {}, top: {}}}
      inner collar: {number: 2, cut: {self: 1}, edges: {neck: {}, end: {}, top: {}}}
      body: {number: 3, cut: {self: 1}, edges: {neckline: {}, fold: {}}}
    steps:
      - {id: collar, title: Sew the collar, work: [{sew: [[outer collar.end, outer collar.top], [inner collar.end,
         inner collar.top]]}, {trim: 1/4 in}, {turn: [outer collar, inner collar]}]}
      - {id: attach, title: Sew on the collar, work: [{sew: [body.neckline, outer collar.neck]}]}
      - {id: close, title: Close the collar, work: [{close: inner collar.neck, by: hand}]}

Source: common practice, no source: the inner edge is folded over the seam, and hides it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, place_of, put_after, told, written
from booklet.check.found import Found
from booklet.check.meant import is_doubled, is_gap, is_opening
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("close", "slipstitch"):
        for edge in act.edges:
            seam = _left_in(edge, act) or _ends_later(edge, act) or _covered(edge, act)
            if seam is not None and not told(bench, act.step, seam.act.step):
                yield _found(act, edge, seam)
                break


def _left_in(edge: Edge, act: Act) -> Seam | None:
    """The seam beside a gap, where it is sewn only later."""
    if not is_gap(edge.spec.name) and not is_opening(edge.spec.name):
        return None
    return next((seam for near in edge.neighbours for seam in near.seams if seam.act.time > act.time), None)


def _ends_later(edge: Edge, act: Act) -> Seam | None:
    """The later seam at an end of a band or cuff, which is sewn right sides together and turned."""
    if not is_doubled(edge.cut.called):
        return None
    seams = [seam for near in edge.neighbours for seam in near.seams if seam.act.time > act.time]
    return next((seam for seam in seams if all(is_doubled(each.cut.called) for each in seam.edges)), None)


def _covered(edge: Edge, act: Act) -> Seam | None:
    """The later seam of the edge that lies behind this one, at the other side of the seams at its ends."""
    for near in edge.neighbours:
        for seam in near.seams:
            if seam.act.time > act.time:
                continue
            behind = [
                flank
                for other in seam.edges
                for flank in other.neighbours
                if flank is not edge
                and flank not in seam.edges
                and not is_opening(flank.spec.name)
                and _same_end(edge, flank)
            ]
            late = [each for flank in behind for each in flank.seams if each.act.time > act.time]
            if late:
                return late[0]
    return None


def _same_end(edge: Edge, other: Edge) -> bool:
    return (edge.cut is not other.cut and edge.spec.name == other.spec.name) or is_doubled(edge.cut.called)


def _found(act: Act, edge: Edge, seam: Seam) -> Found:
    there = "later in this step" if seam.act.step is act.step else f"only later, in {seam.act.step.called}"
    beside = "beside it" if any(seam in near.seams for near in edge.neighbours) else "over which it closes"
    left = "in which it is left open" if is_gap(edge.spec.name) or is_opening(edge.spec.name) else beside
    return Found(
        place_of(act, edge),
        act.step,
        f"{written(act, edge)} is closed too early: {seam_said(seam)}, {left}, is sewn {there}.",
        put_after(f"“{act.name}”", seam.act.step, act.step),
        (Related("It is sewn here", seam.act.place),),
        move=movable(act.step, seam.act.step),
        late=seam.act.step,
    )
