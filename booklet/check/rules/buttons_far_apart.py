"""The buttons of a front are farther apart than a shirt can hold shut.

What it finds: `every:` of more than 4 in, on `buttonhole`, `button` or `snap`, down an edge whose name, or whose
piece's, is a front, a placket or a button band, with fastenings of 5/8 in or less. Coats have larger buttons, wider
apart.

Why it matters at the machine: the front gapes between the buttons, above all at the bust.

Wrong:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, every: 5 in}]}

Right:
    steps:
      - {id: holes, title: Make the buttonholes, work: [{buttonhole: front.neckline, every: 3 in}]}

Source: common practice, no source: 2 1/2 to 3 in from centre to centre on a shirt front.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_front
from booklet.check.notions import meant
from booklet.check.numbers import limit
from booklet.finding import Related
from booklet.model.pattern import Notion
from booklet.sew.bench import Act, Bench

LEVEL = "warning"
PLURAL = {"buttonhole": "Buttonholes", "button": "Buttons", "snap": "Snaps"}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("buttonhole", "button", "snap"):
        every = act.entry.measure("every")
        if every is None or act.broken or not every > limit("most button gap", every.metric):
            continue
        small = _small(bench, act)
        if small is not None and act.edges and all(is_front(edge.called) for edge in act.edges):
            yield Found(
                act.entry.place_of("every"),
                act.step,
                f"{PLURAL[act.name]} {every} apart let a front gape; up to {limit('most button gap', every.metric)} is "
                "usual for ones as small as these.",
                f"Write {limit('usual button gap', every.metric)}, and count them again.",
                (Related("They are listed here", small.place),),
            )


def _small(bench: Bench, act: Act) -> Notion | None:
    """One of the notions that the entry means, where all of them are small."""
    notions = meant(bench, act)
    sizes = [notion.size.length for notion in notions if notion.size]
    small = bool(notions) and len(sizes) == len(notions)
    return notions[0] if small and all(size <= limit("small button", size.metric) for size in sizes) else None
