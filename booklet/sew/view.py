"""Sews one view: lays out its cut pieces, does the work of its steps in order, and names what they make."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece, Group, Missing, Part, merge
from booklet.sew.names import used_part
from booklet.sew.perform import perform

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Pattern, Step, View


def sew_view(
    pattern: Pattern, view: View, left_out: frozenset[str] = frozenset(), order: Sequence[Step] | None = None
) -> Bench:
    """The bench after the last step. `order`: the same steps in another order than the written one."""
    bench = Bench(pattern, view, left_out)
    _lay_out(bench)
    steps = pattern.steps_of(view.letter) if order is None else order
    bench.steps = [step for step in steps if step.id not in left_out]
    for step in bench.steps:
        if step.makes is not None:
            bench.makers.setdefault(same_name(step.makes.value), []).append(step)
    for step in bench.steps:
        _sew_step(bench, step)
    return bench


def sew_all(pattern: Pattern, views: Sequence[str] | None = None) -> list[Bench]:
    """Every view, and where it has optional steps, again without them: each alone, and all of them."""
    benches = []
    for letter, view in pattern.views.items():
        if views is not None and letter not in views:
            continue
        benches += [sew_view(pattern, view, left_out) for left_out in runs_of(pattern, view)]
    return benches


def runs_of(pattern: Pattern, view: View) -> list[frozenset[str]]:
    """What each sewing of a view leaves out, by id: nothing; each optional step; all of them."""
    steps = pattern.steps_of(view.letter)
    waited_for = {same_name(name.value) for step in steps for name in step.after}
    optional = [step.id for step in steps if step.optional and not _adds_only(step, waited_for)]
    runs = [frozenset[str](), *(frozenset({step}) for step in optional[:MOST_ALONE])]
    return [*runs, frozenset(optional)] if len(optional) > 1 else runs


def _adds_only(step: Step, waited_for: set[str]) -> bool:
    """Whether a step only adds rows of stitching or looks: nothing after it can miss it, so it need not be left out."""
    if step.makes is not None or step.uses or not step.work or same_name(step.id) in waited_for:
        return False
    return all(entry.operation.bench in ("topstitch", "touch") and "as" not in entry.options for entry in step.work)


# How many optional steps are left out one at a time? Past that, only all together. Our choice, to keep the cost linear.
MOST_ALONE = 6


def _lay_out(bench: Bench) -> None:
    for piece in bench.pattern.pieces.values():
        if bench.view.letter not in piece.scope.views:
            continue
        for order, cut in enumerate(piece.cuts):
            called = piece.name if order == 0 else f"{piece.name} in {cut.material.value.strip()}"
            laid = CutPiece(piece, same_name(cut.material.value), called, cut.number)
            name = same_name(called)
            part = Part(name, called, laid, 1)
            laid.part = part
            laid.group.fresh.append(part)
            bench.cuts[name] = laid
            bench.parts[name] = part


def _sew_step(bench: Bench, step: Step) -> None:
    bench.started[step.id] = len(bench.acts)
    used = [part for use in step.uses if (part := used_part(bench, use, step))]
    first = len(bench.acts)
    for entry in step.work:
        perform(bench, Act(len(bench.acts), step, entry))
    acts = bench.acts[first:]
    for part in used:
        for cut in part.cuts:
            cut.trusted = cut.trusted or not step.has_work
            if cut.touched is None:
                cut.touched = step
    if step.makes is not None:
        _make(bench, step, acts, used)


def _make(bench: Bench, step: Step, acts: list[Act], used: list[Part]) -> None:
    """Gives what the step worked on its name. What hangs loose all the same is recorded, and taken as joined."""
    assert step.makes is not None
    name = same_name(step.makes.value)
    groups: dict[Group, None] = {}
    for act in acts:
        groups.update(dict.fromkeys(edge.cut.group for edge in act.edges))
        groups.update(dict.fromkeys(cut.group for cut in act.cuts))
    joined = len(groups)
    groups.update(dict.fromkeys(cut.group for part in used for cut in part.cuts))
    if joined > 1 and not used and not any(act.broken for act in acts):
        bench.missing.append(
            Missing(
                "unjoined",
                step,
                step.makes.value,
                step.makes.place,
                time=len(bench.acts),
                known=tuple(group.cuts[0].called for group in groups),
            )
        )
    earlier = bench.parts.get(name)
    if earlier is not None and earlier.first is not None and earlier.gone is None and any(act.broken for act in acts):
        # What the step could not name was most likely the part on which it works.
        groups[earlier.first.group] = None
    if earlier is not None and earlier.gone is not None and earlier.gone is not step:
        bench.missing.append(Missing("already gone", step, step.makes.value, step.makes.place, part=earlier))
    elif earlier is not None and earlier.first is not None and groups and earlier.first.group not in groups:
        bench.missing.append(
            Missing("made twice", step, step.makes.value, step.makes.place, part=earlier, maker=earlier.made)
        )
    whole = _merged(list(groups))
    part = Part(name, step.makes.value.strip(), whole.cuts[0] if whole else None, len(whole.cuts) if whole else 0, step)
    if whole is not None:
        for old in whole.fresh:
            if old.gone is None and old.name != name:
                old.gone, old.gone_into = step, part.called
        whole.fresh = [part]
    bench.parts[name] = part


def _merged(groups: list[Group]) -> Group | None:
    if not groups:
        return None
    whole = groups[0]
    for group in groups[1:]:
        whole = merge(whole, group)
    return whole
