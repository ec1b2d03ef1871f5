"""An edge is hemmed when the seam or casing across its end is already sewn.

What it finds: a vent, slit or opening that is hemmed, bound, faced or given its placket after a cuff, collar or band
was sewn across its end; a hem beside such a band; and any edge that is hemmed after the edge beside it was turned to a
casing.

Why it matters at the machine: the end of the hem belongs inside the cuff or the casing. Afterwards it can't be turned
there, and the row would sew the mouth of the casing shut.

Wrong:
    pieces:
      pouch: {number: 1, cut: {self: 2}, edges: {top: {}, channel end: {}, side: {}, bottom: {}}}
    steps:
      - {id: sides, title: Sew the sides, work: [{sew: [[pouch.side, pouch.bottom], [pouch.side, pouch.bottom]]}]}
      - {id: channel, title: Sew the channel, work: [{casing: pouch.top, turns: [5/8 in]}]}
      - {id: ends, title: Hem the ends, work: [{hem: pouch.channel end, turns: [1/4 in, 3/8 in]}]}

Right:
    pieces:
      pouch: {number: 1, cut: {self: 2}, edges: {top: {}, channel end: {}, side: {}, bottom: {}}}
    steps:
      - {id: sides, title: Sew the sides, work: [{sew: [[pouch.side, pouch.bottom], [pouch.side, pouch.bottom]]}]}
      - {id: ends, title: Hem the ends, work: [{hem: pouch.channel end, turns: [1/4 in, 3/8 in]}]}
      - {id: channel, title: Sew the channel, work: [{casing: pouch.top, turns: [5/8 in]}]}

Source: common practice, no source: the edge of an opening is finished before a band or a casing goes over its end.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.check.meant import is_doubled, is_opening, is_tube
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge, Seam

LEVEL = "error"
DONE = {"hem": "hemmed", "bind": "bound", "sew": "faced"}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of(*DONE):
        for edge in act.edges if act.name != "sew" else [edge for edge in act.edges if is_opening(edge.spec.name)]:
            closed = _across(edge, act)
            if closed is not None and not told(bench, act.step, closed.step):
                yield _found(act, edge, closed)
                break


def _across(edge: Edge, act: Act) -> Act | None:
    """What was done before to an edge beside it, which takes its end in."""
    for near in edge.neighbours:
        closed = near.closed
        if closed is None or closed.time > act.time:
            continue
        if closed.name == "casing" and edge.closed is act:
            return closed
        if closed.seam is not None and closed.seam is not act.seam and _crosses(closed.seam, edge, near, act):
            return closed
    return None


def _crosses(seam: Seam, edge: Edge, near: Edge, act: Act) -> bool:
    """Whether a seam takes the end of an edge in: that of a band, cuff or collar; of an opening, any that crosses it.

    The seam in which an opening is left has one on each side, and so has a yoke between two armholes.
    """
    others = [other.cut.called for other in seam.edges if other.cut is not near.cut]
    sides = sum(any(flank.closed is act for each in layer.edges for flank in each.neighbours) for layer in seam.layers)
    if sides != 1 or not others:
        return False
    if any(is_doubled(name) and not is_tube(name) for name in others):
        return True
    return act.name == "hem" and is_opening(edge.spec.name)


def _found(act: Act, edge: Edge, closed: Act) -> Found:
    what = "casing" if closed.name == "casing" else "seam"
    its_end = "the end of the hem" if act.name == "hem" else "its end"
    return Found(
        place_of(act, edge),
        act.step,
        f"{written(act, edge)} is {DONE[act.name]} too late: the {what} across its end was sewn before, "
        f"{where(closed.step, act.step)}, and {its_end} belongs inside it.",
        put_before("the hem" if act.name == "hem" else "this", closed.step, act.step),
        (Related(f"The {what} is sewn here", closed.place),),
        move=movable(act.step, closed.step),
    )
