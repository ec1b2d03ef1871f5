"""An edge is finished when it is already shut away.

What it finds: `finish` on an edge, or a seam, that lies inside a French, felled or bound seam, in a hem or casing,
in a binding, or in a part already turned right side out.

Why it matters at the machine: the raw edge can't be reached; and it needs no finish.

Wrong:
    steps:
      - {id: hem, title: Hem, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - {id: finish, title: Finish the edges, work: [{finish: [front.hem, front.side], how: zigzag}]}

Right:
    steps:
      - {id: finish, title: Finish the edges, work: [{finish: [front.hem, front.side], how: zigzag}]}
      - {id: hem, title: Hem, work: [{hem: front.hem, turns: [1 in]}]}

Source: published: Oklahoma Coop. Ext. 4-H No. 810: French and felled seams enclose their raw edges.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.check.turned import Turned
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"
SHUTS = frozenset({"french", "mock french", "flat felled", "bound", "hong kong"})


def find(bench: Bench) -> Iterator[Found]:
    turned = Turned(bench)
    for act in bench.of("finish"):
        for edge in act.edges:
            closed = closed_before(edge, act.time)
            shut = closed and _shut_by(turned, closed, act)
            if closed and shut and not told(bench, act.step, closed.step):
                yield _found(act, edge, closed, shut)
                break


def _shut_by(turned: Turned, closed: Act, act: Act) -> str:
    """Inside what it lies, in words; empty where it can still be reached."""
    there = where(closed.step, act.step)
    away = turned.away(closed.seam, act.time) if closed.seam is not None else None
    if closed.seam is not None and closed.seam.construction in SHUTS:
        return f"the {closed.seam.construction} seam, sewn {there}".replace("french", "French").replace(
            "hong kong", "Hong Kong"
        )
    if away is not None:
        return f"what was turned {where(away.step, act.step)}"
    if closed.name in ("hem", "casing"):
        return f"the {closed.name}, sewn {there}"
    return f"the binding, sewn {there}" if closed.name == "bind" else ""


def _found(act: Act, edge: Edge, closed: Act, shut: str) -> Found:
    frays = closed.name in ("hem", "casing") and len(closed.entry.lengths("turns")) == 1
    return Found(
        place_of(act, edge),
        act.step,
        f"{written(act, edge)} can't be finished any more: its raw edge lies inside {shut}.",
        put_before("the finish", closed.step, act.step)
        if frays
        else "Take the finish out: nothing frays there; or finish the edge before it is shut away.",
        (Related("It is shut away here", closed.place),),
        move=movable(act.step, closed.step) if frays else None,
    )
