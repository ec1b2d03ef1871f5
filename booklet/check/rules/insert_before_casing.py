"""Elastic or cord is threaded before there is a casing for it.

What it finds: `insert` where no `casing` has been sewn yet, or where the edge or seam under `into:` is still open.

Why it matters at the machine: there is no channel to thread it through.

Wrong:
    steps:
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic}]}
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in]}]}

Right:
    steps:
      - {id: casing, title: Sew the casing, for: B, work: [{casing: sleeve.hem, turns: [1 in]}]}
      - {id: elastic, title: Thread the elastic, for: B, work: [{insert: elastic}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, told
from booklet.check.found import Found
from booklet.finding import Related
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    casings = bench.of("casing")
    for act in bench.of("insert"):
        if act.target is None and not _is_closed(bench, act) and not told(bench, act.step):
            later = next((casing for casing in casings if casing.time > act.time), None)
            yield _found(act, later)


def _is_closed(bench: Bench, act: Act) -> bool:
    """Whether `into` names a channel made some other way: a hem, or the rows of a seam."""
    into: Text | None = act.entry.options.get("into")
    if into is None:
        return False
    if "." in into.value:
        return not act.edges or any(edge.closed and edge.closed.time < act.time for edge in act.edges)
    seam = bench.named_seams.get(same_name(into.value))
    return seam is None or seam.act.time < act.time


def _found(act: Act, later: Act | None) -> Found:
    what = act.entry.word.value.strip() if act.entry.word else "elastic"
    mend = "Add the “casing:” before it; where the channel is a hem, name its edge with “into:”."
    return Found(
        act.entry.word.place if act.entry.word else act.place,
        act.step,
        f"The {what} can't be threaded yet: no casing has been sewn for it.",
        put_after("the threading", later.step, act.step) if later else mend,
        (Related("The casing is sewn here", later.place),) if later else (),
        move=movable(act.step, later.step) if later else None,
    )
