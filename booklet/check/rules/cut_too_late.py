"""An edge is cut along its line after it was sewn.

What it finds: `cut` on an edge that already lies in a seam, a hem or a casing, or that has been finished, staystitched,
basted or drawn up.

Why it matters at the machine: the shears would cut the stitching off.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - {id: cut, title: Cut to length, work: [{cut: front.hem, to: cropped line}]}

Right:
    steps:
      - {id: cut, title: Cut to length, work: [{cut: front.hem, to: cropped line}]}
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Source: common practice, no source: a piece is cut to its line while its edge is raw.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"
STITCHED = {
    "finish": "finished",
    "staystitch": "staystitched",
    "baste": "basted",
    "ease": "eased",
    "gather": "gathered",
    "topstitch": "topstitched",
}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("cut"):
        late = [(edge, done) for edge in act.edges if (done := _done(edge, act)) is not None]
        if late:
            done = late[0][1]
            if told(bench, act.step, done.step):
                continue
            names = list(dict.fromkeys(written(act, edge) for edge, each in late if each.name == done.name))
            they_were = "they were" if len(names) > 1 else "it was"
            yield Found(
                place_of(act, late[0][0]),
                act.step,
                f"{listed(names)} can't be cut any more: {they_were} {STITCHED.get(done.name, 'closed')} before, "
                f"{where(done.step, act.step)}.",
                put_before("the cutting", done.step, act.step),
                (Related(f"{names[0]} is {STITCHED.get(done.name, 'closed')} here", done.place),),
                move=movable(act.step, done.step),
            )


def _done(edge: Edge, act: Act) -> Act | None:
    """What closed the edge before it is cut; else the first row of stitching along it."""
    rows = (each for each in edge.acts if each.time < act.time and each.name in STITCHED)
    return closed_before(edge, act.time) or next(rows, None)
