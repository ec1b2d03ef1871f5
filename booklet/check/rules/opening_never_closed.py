"""The opening through which a part was turned is never closed.

What it finds: an edge named by `through:` that no step closes, hems or binds when the last one is done.

Why it matters at the machine: the garment is worn with a hole in its lining.

Wrong:
    steps:
      - id: bag
        title: Make the bag
        work: [{sew: [pocket.sides, pocket.sides]}, {turn: pocket, through: pocket.top}]

Right:
    steps:
      - id: bag
        title: Make the bag
        work: [{sew: [pocket.sides, pocket.sides]}, {turn: pocket, through: pocket.top}, {close: pocket.top}]

Source: common practice, no source: the gap is closed by hand or edgestitched when the part is turned.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.openings import named_opening
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.tree import Text
from booklet.sew.bench import Bench, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("turn"):
        named = named_opening(act)
        if named is None or act.broken or told(bench, act.step):
            continue
        left = [edge for edge in named[1] if edge.closed is None and not edge.excused and not edge.spec.fold]
        if left:
            names = listed(edge.called for edge in left)
            yield Found(
                named[0].place,
                act.step,
                f"{act.entry.things[0].written} is turned through {names}, and no step closes "
                f"{'it' if len(left) == 1 else 'them'}.",
                f"Add “close: {_named(named[0], left[0])}” after the turning.",
                (Related("It is drawn here", left[0].spec.place),),
            )


def _named(through: Text, edge: Edge) -> str:
    """With its part, as `close:` wants it."""
    written = through.value.strip()
    return written if "." in written else edge.called
