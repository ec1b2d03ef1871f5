"""An edge is sewn, hemmed or closed a second time.

What it finds: an edge that `sew`, `hem`, `casing`, `bind`, `close`, `zipper` or a pocket takes, though an earlier
entry has closed it.

Why it matters at the machine: there is no edge left there to sew. Most often another edge is meant, or one of the two
steps is for another view.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: again, title: Join the shoulders again, work: [{sew: [front.shoulder, back.shoulder]}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Source: common practice, no source: an edge can be closed once.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import sewn_shut, where
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Missing

LEVEL = "error"
DONE = {"hem": "hemmed", "bind": "bound", "close": "closed", "casing": "turned into a casing", "pocket": "sewn on"}


def find(bench: Bench) -> Iterator[Found]:
    by_act: dict[int, list[Missing]] = {}
    for missing in bench.missing:
        if missing.kind == "already closed" and not _explained(missing):
            by_act.setdefault(missing.time, []).append(missing)
    by_closing: dict[Act | None, list[list[Missing]]] = {}
    for together in by_act.values():
        by_closing.setdefault(together[0].edge.closed if together[0].edge else None, []).append(together)
    for first, *others in by_closing.values():
        yield _found(first, others)


def _explained(missing: Missing) -> bool:
    """A casing leaves a gap, which is closed in the end; of a pocket sewn shut, pocket-without-opening speaks.

    A step that was copied with its id is told as step-id-twice.
    """
    edge, closed = missing.edge, missing.edge.closed if missing.edge else None
    again = missing.entry is not None and missing.entry.name == "pocket"
    if edge is None or closed is None or (closed.name == "pocket" and not again and sewn_shut(edge.cut, closed)):
        return True
    step = missing.step
    if step is not closed.step and same_name(step.id) == same_name(closed.step.id):
        return True
    return closed.name == "casing" and missing.entry is not None and missing.entry.name == "close"


def _found(together: list[Missing], others: list[list[Missing]]) -> Found:
    """One finding for an entry, whichever of its edges are closed. others: what else the earlier entry forestalls."""
    first = together[0]
    assert first.edge is not None
    closed = first.edge.closed
    assert closed is not None
    names = list(dict.fromkeys(missing.written for missing in together))
    done = DONE.get(first.entry.name, "sewn") if first.entry else "sewn"
    already = done if done == DONE["pocket"] else "closed"
    they_are = "they are" if len(names) > 1 else "it is"
    return Found(
        first.place,
        first.step,
        f"{listed(names)} can't be {done} here: {they_are} {already} already, {where(closed.step, first.step)}.",
        "Name the edge that is meant, or leave one of the two out; if they are for different views, write “for:”.",
        (
            Related(f"{names[0]} was closed here", closed.place),
            *(Related(f"{each[0].written} can't be closed here either", each[0].place) for each in others),
        ),
    )
