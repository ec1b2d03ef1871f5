"""A strap, tie or loop is sewn to a tube when its ends are already caught.

What it finds: the long seam of a strap, tie, loop or belt, or its turning, after its ends were basted or sewn to the
garment.

Why it matters at the machine: a tube is turned through its end, and that is shut.

Wrong:
    pieces:
      bag: {number: 1, cut: {self: 1}, edges: {top: {}, side: {}}}
      strap: {number: 2, cut: {self: 1}, edges: {upper edge: {}, first end: {}, lower edge: {}, second end: {}}}
    steps:
      - id: place
        title: Baste the strap
        work: [{baste: [bag.top, [strap.first end, strap.second end]], at: 1/4 in}]
      - id: strap
        title: Make the strap
        work: [{sew: [strap.upper edge, strap.lower edge]}, {trim: 1/4 in}, {turn: strap}]

Right:
    pieces:
      bag: {number: 1, cut: {self: 1}, edges: {top: {}, side: {}}}
      strap: {number: 2, cut: {self: 1}, edges: {upper edge: {}, first end: {}, lower edge: {}, second end: {}}}
    steps:
      - id: strap
        title: Make the strap
        work: [{sew: [strap.upper edge, strap.lower edge]}, {trim: 1/4 in}, {turn: strap}]
      - id: place
        title: Baste the strap
        work: [{baste: [bag.top, [strap.first end, strap.second end]], at: 1/4 in}]

Source: common practice, no source: a tube is sewn and turned before it is sewn in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.meant import is_tube
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    told_of: set[CutPiece] = set()
    for act in bench.of("sew", "turn"):
        cut = _tube(act)
        caught = None if cut is None or cut in told_of else _caught(cut, act)
        if cut is not None and caught is not None and not told(bench, act.step, caught.step):
            told_of.add(cut)
            done = "turned" if act.name == "turn" else "sewn to a tube"
            yield Found(
                act.place,
                act.step,
                f"{cut.called} can't be {done} any more: its ends were caught before, {where(caught.step, act.step)}.",
                put_before("this", caught.step, act.step),
                (Related("Its ends are caught here", caught.place),),
                move=movable(act.step, caught.step),
            )


def _tube(act: Act) -> CutPiece | None:
    """The one narrow piece that an entry sews to itself along its length, or turns."""
    cuts = act.cuts if act.name == "turn" else list(dict.fromkeys(edge.cut for edge in act.edges))
    if act.broken or len(cuts) != 1 or not is_tube(cuts[0].called):
        return None
    return cuts[0] if act.name == "turn" or len(act.edges) > 1 else None


def _caught(cut: CutPiece, act: Act) -> Act | None:
    """What caught its ends before; None while one of them is still free."""
    first: Act | None = None
    sewn = set(act.edges)
    ends = [edge for edge in cut.edges.values() if edge not in sewn and any(near in sewn for near in edge.neighbours)]
    if act.name == "turn":
        ends = [edge for edge in cut.edges.values() if not any(_within(seam.edges, cut) for seam in edge.seams)]
    for end in ends:
        joins = [seam for seam in (*end.seams, *end.basted) if not _within(seam.edges, cut)]
        earlier = min((seam.act for seam in joins if seam.act.time < act.time), key=lambda a: a.time, default=None)
        if earlier is None:
            return None
        first = earlier if first is None or earlier.time < first.time else first
    return first


def _within(edges: list[Edge], cut: CutPiece) -> bool:
    return all(edge.cut is cut for edge in edges)
