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
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.sew.bench import Bench, Group

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    groups = [group for group in bench.groups if any(cut.touched for cut in group.cuts)]
    if len(groups) < 2 or bench.missing or any(act.broken for act in bench.acts):
        return
    main = max(groups, key=lambda group: len(group.cuts))
    last = _last_worked(bench)
    for group in groups:
        if group is not main:
            step = last.get(group) or next(cut.touched for cut in group.cuts if cut.touched)
            yield _found(group, main, step)


def _last_worked(bench: Bench) -> dict[Group, Step]:
    last = {}
    for act in bench.acts:
        for cut in act.cuts:
            last[cut.group] = act.step
        for edge in act.edges:
            last[edge.cut.group] = act.step
    return last


def _found(group: Group, main: Group, step: Step) -> Found:
    several = len(group.cuts) > 1 and not _part(group)
    hangs, it = ("hang", "them") if several else ("hangs", "it")
    return Found(
        step.place,
        step,
        f"{_named(group)} still {hangs} loose when the last step is done: nothing joins {it} to {_named(main)}.",
        f"Add the seam that joins {_named(group)} to the rest, after {step.called}.",
        (Related(f"{group.cuts[0].called} stands here", group.cuts[0].piece.place),),
    )


def _part(group: Group) -> str:
    made = [part.called for part in group.fresh if part.made is not None]
    return made[0] if len(made) == 1 else ""


def _named(group: Group) -> str:
    return _part(group) or listed(cut.called for cut in group.cuts)
