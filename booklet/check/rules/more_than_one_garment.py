"""When the last step is done, something still hangs loose.

What it finds: a piece or part that steps of the view work on, but that no seam joins to the rest.

Why it matters at the machine: a seam is missing from the booklet: the sleeves are ready, and nobody sets them in.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: facing, title: Make the facing, work: [{sew: [neck facing.ends, neck facing.ends]}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: facing, title: Make the facing, work: [{sew: [neck facing.ends, neck facing.ends]}]}
      - {id: attach, title: Attach the facing, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}

Source: our choice: a view is one garment; a belt that is worn loose is allowed with a reason.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.loose import loose
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.sew.bench import Bench, Edge, Group

LEVEL = "error"
# So many raw edges are named beside. Our choice.
MOST_RAW = 4


def find(bench: Bench) -> Iterator[Found]:
    apart = loose(bench)
    if apart is None:
        return
    last = _last_worked(bench)
    for group, own in zip(apart.groups, apart.own, strict=True):
        step = last.get(group) or next(cut.touched for cut in group.cuts if cut.touched)
        yield _found(group, apart.main, step, own, apart.theirs if len(apart.groups) == 1 else ())


def _last_worked(bench: Bench) -> dict[Group, Step]:
    last = {}
    for act in bench.acts:
        for cut in act.cuts:
            last[cut.group] = act.step
        for edge in act.edges:
            last[edge.cut.group] = act.step
    return last


def _found(group: Group, main: Group, step: Step, own: tuple[Edge, ...], theirs: tuple[Edge, ...]) -> Found:
    """own, theirs: the raw edges of both, which the missing seam most likely takes."""
    name = _named(group)
    several = (len(group.cuts) > 1 and not _part(group)) or (name.endswith("s") and not name.endswith("ss"))
    hangs, it = ("hang", "them") if several else ("hangs", "it")
    says = f"{name} still {hangs} loose when the last step is done: nothing joins {it} to {_named(main)}."
    return Found(
        step.place,
        step,
        says,
        f"Add the seam that joins {_edges(own) or name} to {_edges(theirs) or 'the rest'}, after {step.called}.",
        (
            Related(f"{group.cuts[0].called} stands here", group.cuts[0].piece.place),
            *(Related(f"{edge.called} is raw", edge.spec.place) for edge in (*own, *theirs)[:MOST_RAW]),
        ),
        cause=says,
    )


def _edges(raw: tuple[Edge, ...]) -> str:
    """The one edge, or the edges of one name, that are raw."""
    return listed(edge.called for edge in raw) if len({edge.spec.name for edge in raw}) == 1 else ""


def _part(group: Group) -> str:
    made = [part.called for part in group.fresh if part.made is not None]
    return made[0] if len(made) == 1 else ""


def _named(group: Group) -> str:
    return _part(group) or listed(cut.called for cut in group.cuts)
