"""Buttons, snaps or hooks are sewn to an edge that is only sewn afterwards.

What it finds: `button`, `snap` or `hook` on an edge before the seam, placket, hem, binding or zipper that closes it.
Buttonholes are left out there: bound ones are made in the single piece. And any fastening on a seam that is clipped,
trimmed or understitched only afterwards, or on a cuff or band between its seam and its turning.

Why it matters at the machine: the foot has to stitch past the buttons; and where a facing, a placket or a band comes
behind the edge, they are sewn through the wrong layer.

Wrong:
    steps:
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}
      - {id: hem, title: Turn the back edge, work: [{hem: back.centre back, turns: [5/8 in]}]}

Right:
    steps:
      - {id: hem, title: Turn the back edge, work: [{hem: back.centre back, turns: [5/8 in]}]}
      - {id: buttons, title: Sew on the buttons, work: [{button: back.centre back, count: 3}]}

Source: published: a sewing book's ch. 4: buttonholes and buttons are positioned after the garment is completed.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import handlings, movable, place_of, put_after, told, where, written
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Edge

LEVEL = "warning"
FASTENERS = {"button": "buttons", "snap": "snaps", "hook": "hooks", "buttonhole": "buttonholes"}
READY = {
    "trim": "trimmed",
    "grade": "graded",
    "clip": "clipped",
    "notch": "notched",
    "understitch": "understitched",
    "turn": "turned",
}
CLOSES = frozenset({"sew", "placket", "hem", "bind", "zipper"})


def find(bench: Bench) -> Iterator[Found]:
    turned = handlings(bench, "turn") if bench.of(*FASTENERS) else {}
    for act in bench.of(*FASTENERS):
        if act.broken:
            continue
        edge = next((edge for edge in act.edges if act.name != "buttonhole" and _open(edge, act)), None)
        if edge is not None and edge.closed is not None:
            if not told(bench, act.step, edge.closed.step):
                yield _found(act, edge, edge.closed, "sewn")
            continue
        for edge in act.edges:
            ready = _made_ready(edge, act, turned)
            if ready is not None and not told(bench, act.step, ready.step):
                yield _found(act, edge, ready, READY[ready.name])
                break


def _made_ready(edge: Edge, act: Act, turned: dict[CutPiece, list[Act]]) -> Act | None:
    """What is still to be done to the seam on which the fastening sits."""
    if edge.closed is None or edge.closed.time > act.time:
        return None
    seam = edge.closed.seam
    later = seam.later if seam is not None else ()
    return next(
        (each for each in (*later, *turned.get(edge.cut, ())) if each.name in READY and each.time > act.time), None
    )


def _found(act: Act, edge: Edge, later: Act, done: str) -> Found:
    made = "made on" if act.name == "buttonhole" else "sewn to"
    return Found(
        place_of(act, edge),
        act.step,
        f"The {FASTENERS[act.name]} are {made} {written(act, edge)} too early: it is {done} only later, "
        f"{where(later.step, act.step)}.",
        put_after(f"the {FASTENERS[act.name]}", later.step, act.step),
        (Related(f"{edge.called} is {done} here", later.place),),
        move=movable(act.step, later.step),
    )


def _open(edge: Edge, act: Act) -> bool:
    closed = edge.closed
    return closed is not None and closed.name in CLOSES and closed.time > act.time and not edge.excused
