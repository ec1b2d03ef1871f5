"""A part is turned, and no edge is open to pull it through.

What it finds: `turn` on a part whose edges are all sewn shut, and `turn: …, through: EDGE` where that edge is sewn
shut, or is none of the part's. A hem, a casing or a zipper leaves an edge open; a part that was cut along a line may
be turned through the cut.

Why it matters at the machine: the work lies inside out in a closed bag, and a seam has to be picked open.

Wrong:
    steps:
      - {id: sew, title: Sew the bag, work: [{sew: [pocket.top, pocket.top]}, {sew: [pocket.sides, pocket.sides]}]}
      - {id: turn, title: Turn the bag, work: [{turn: pocket}]}

Right:
    steps:
      - {id: sew, title: Sew the bag, work: [{sew: [pocket.sides, pocket.sides]}]}
      - {id: turn, title: Turn the bag, work: [{turn: pocket, through: pocket.top}]}
      - {id: close, title: Close the bag, work: [{close: pocket.top, by: hand}]}

Source: common practice, no source: a gap is left for turning, and closed by hand.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.check.acts import told, where
from booklet.check.found import Found
from booklet.check.meant import is_turned
from booklet.check.openings import hanging_together, named_opening, open_at
from booklet.check.turned import last_seam
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.faults import nearest
from booklet.read.tree import Text
from booklet.sew.bench import Act, Bench, CutPiece, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    slit = {edge.cut for act in bench.of("cut") for edge in act.edges} if bench.of("turn") else set()
    for act in bench.of("turn"):
        if act.broken or not act.cuts or told(bench, act.step):
            continue
        named = named_opening(act)
        if named is not None and not named[1]:
            if "." not in named[0].value:  # a full name that means nothing is told by unknown-edge or unknown-part
                yield _unknown(act, named[0])
        elif named is not None:
            if not any(open_at(edge, act.time) or edge.excused for edge in named[1]):
                yield _shut(act, named[0].value.strip(), named[0], named[1])
        elif not any(cut in slit or _is_open(cut, act.time) for cut in _turned_with(act)):
            last = _last_shut(act)
            if last is not None:
                yield _shut(act, "", None, [last])


def _turned_with(act: Act) -> Iterable[CutPiece]:
    """What is turned with it: of a collar or cuff the pieces that its last seam joins; else all that hangs together."""
    last = last_seam(act.cuts, act.time)
    joined = list(dict.fromkeys(edge.cut for edge in last.edges)) if last is not None else []
    # Of a piece that is sewn to its own other copy one edge stands for both: the other one may be open.
    return joined if len(joined) > 1 and all(is_turned(cut.called) for cut in joined) else hanging_together(act)


def _edges(cuts: list[CutPiece]) -> list[Edge]:
    return [edge for cut in cuts for edge in cut.edges.values() if not edge.spec.fold]


def _is_open(cut: CutPiece, time: int) -> bool:
    return cut.trusted or any(open_at(edge, time) for edge in _edges([cut]))


def _last_shut(act: Act) -> Edge | None:
    shut = [edge for edge in _edges(act.cuts) if edge.closed is not None and not edge.excused]
    return max(shut, key=lambda edge: edge.closed.time if edge.closed else 0, default=None)


def _shut(act: Act, written: str, through: Text | None, edges: list[Edge]) -> Found:
    closed = edges[0].closed
    assert closed is not None
    there = where(closed.step, act.step)
    name = act.entry.things[0]
    related = (Related(f"{edges[0].called} is sewn shut here", closed.place),)
    if through is not None:
        says = f"{name.written} can't be turned through {written}: it was sewn shut before, {there}."
        mend = f"Leave {written} out of the seam {there}, and close it after the turning."
        return Found(through.place, act.step, says, mend, related)
    says = f"{name.written} can't be turned: all its edges are sewn shut, the last of them {there}."
    mend = (
        "Leave a gap: list it as an edge of its own, and leave it out of the seam. Write "
        f"“through: {edges[0].cut.called}.turning gap” here, and close it later."
    )
    # What was closed before its ends were sewn is told by closed-too-early: one cause.
    closed_first = any(edge.closed and edge.closed.name in ("close", "slipstitch") for edge in _edges(act.cuts))
    return Found(name.place, act.step, says, mend, related, late=act.step if closed_first else None)


def _unknown(act: Act, through: Text) -> Found:
    known = list(dict.fromkeys(edge.spec.name for edge in _edges(act.cuts)))
    near = nearest(through.value, known)
    return Found(
        through.place,
        act.step,
        f"“{through.value.strip()[:60]}” is no edge to turn {act.entry.things[0].written} through.",
        f"Did you mean “{near}”?" if near else f"Write the edge that is left open: {listed(known, 'or')}.",
    )
