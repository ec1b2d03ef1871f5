"""An edge is pressed under when it is already closed.

What it finds: `press: up` of an edge that an earlier `close` or `slipstitch` has sewn down.

Why it matters at the machine: the fold is what the sewer closes by; afterwards the edge can't be reached.

Wrong:
    steps:
      - {id: close, title: Close the facing, work: [{close: neck facing.outer, by: hand}]}
      - {id: press, title: Press the edge, work: [{press: up, of: neck facing.outer}]}

Right:
    steps:
      - {id: press, title: Press the edge, work: [{press: up, of: neck facing.outer}]}
      - {id: close, title: Close the facing, work: [{close: neck facing.outer, by: hand}]}

Source: common practice, no source: the edge is folded along its seam line before it is closed.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import closed_before, movable, put_before, told, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Bench

LEVEL = "error"
FOLDS = frozenset({"up", "under"})
CLOSES = frozenset({"close", "slipstitch"})


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("press"):
        if act.seam is not None or act.entry.word is None or same_name(act.entry.word.value) not in FOLDS:
            continue
        for edge in act.edges:
            closed = closed_before(edge, act.time)
            if closed is not None and closed.name in CLOSES and not told(bench, act.step, closed.step):
                yield Found(
                    act.place,
                    act.step,
                    f"{edge.called} can't be pressed under any more: it was closed before, "
                    f"{where(closed.step, act.step)}.",
                    put_before("the pressing", closed.step, act.step),
                    (Related("It is closed here", closed.place),),
                    move=movable(act.step, closed.step),
                )
                break
