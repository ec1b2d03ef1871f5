"""An edge is cut along its line after it was sewn.

What it finds: `cut` on an edge that already lies in a seam, a hem or a casing.

Why it matters at the machine: the shears would cut the seam off.

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
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("cut"):
        late = [edge for edge in act.edges if closed_before(edge, act.time)]
        if late:
            closed = closed_before(late[0], act.time)
            assert closed is not None
            if told(bench, act.step, closed.step):
                continue
            names = list(dict.fromkeys(written(act, edge) for edge in late))
            were = "were" if len(names) > 1 else "was"
            yield Found(
                place_of(act, late[0]),
                act.step,
                f"{listed(names)} can't be cut any more: {'they' if were == 'were' else 'it'} {were} closed before, "
                f"{where(closed.step, act.step)}.",
                put_before("the cutting", closed.step, act.step),
                (Related(f"{names[0]} is closed here", closed.place),),
                move=movable(act.step, closed.step),
            )
