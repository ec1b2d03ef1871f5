"""Elastic or cord is threaded before there is a casing for it.

What it finds: `insert` where no `casing` has been sewn yet; where the edge or seam under `into:` is still open; and
where that edge lies in a seam along which nothing was stitched down that could make a channel.

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
from booklet.check.meant import is_channel, is_doubled
from booklet.finding import Related
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"
ROWS = frozenset({"topstitch", "edgestitch", "stitch in the ditch"})


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
        return not act.edges or any(_is_channel(edge, act) for edge in act.edges)
    seam = bench.named_seams.get(same_name(into.value))
    return seam is None or seam.act.time < act.time


def _is_channel(edge: Edge, act: Act) -> bool:
    """Turned to a casing or hem, bound or closed; of a seam, what is felled or stitched down beside it."""
    closed = edge.closed
    if closed is None or closed.time > act.time:
        return False
    if closed.seam is None or closed.seam.construction not in ("plain", "overlocked"):
        return True
    rows = (*closed.seam.later, *edge.acts)
    return any(each.name in ROWS and each.time < act.time for each in rows) or any(
        is_doubled(other.cut.called) or is_channel(other.cut.called) for other in closed.seam.edges
    )


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
