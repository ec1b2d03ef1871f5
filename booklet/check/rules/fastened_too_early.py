"""Buttons, snaps or hooks are sewn to an edge that is only sewn afterwards.

What it finds: `button`, `snap` or `hook` on an edge before the seam, placket, hem, binding or zipper that closes it.
Buttonholes are left out: bound ones are made in the single piece.

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

from booklet.check.acts import movable, place_of, put_after, told, where, written
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "warning"
FASTENERS = {"button": "buttons", "snap": "snaps", "hook": "hooks"}
CLOSES = frozenset({"sew", "placket", "hem", "bind", "zipper"})


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of(*FASTENERS):
        edge = None if act.broken else next((edge for edge in act.edges if _open(edge, act)), None)
        if edge is not None and edge.closed is not None and not told(bench, act.step, edge.closed.step):
            yield Found(
                place_of(act, edge),
                act.step,
                f"The {FASTENERS[act.name]} are sewn to {written(act, edge)} too early: it is sewn only later, "
                f"{where(edge.closed.step, act.step)}.",
                put_after(f"the {FASTENERS[act.name]}", edge.closed.step, act.step),
                (Related(f"{edge.called} is sewn here", edge.closed.place),),
                move=movable(act.step, edge.closed.step),
            )


def _open(edge: Edge, act: Act) -> bool:
    closed = edge.closed
    return closed is not None and closed.name in CLOSES and closed.time > act.time and not edge.excused
