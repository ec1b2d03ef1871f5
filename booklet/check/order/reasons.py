"""Why one step waits for another, in the fewest words: a part, a seam, an edge, a press, or `after:`."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.check.order.trial import Harm
    from booklet.model.pattern import Entry, Step
    from booklet.sew.bench import Act, Bench


class Wait(NamedTuple):
    """first: the step waited for; why: part | seam | press | edge | piece | after | rule; what: its name, as written.

    rule: what `check` would say if it did not wait; "" where an entry would come to speak of another seam, None where
    that was not tried.
    """

    first: Step
    why: str
    what: str
    rule: str | None


class Reasons:
    """The ties between two steps that a sewn bench and the source show by themselves."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._acts: dict[Step, list[Act]] = {step: [] for step in bench.steps}
        for act in bench.acts:
            self._acts.setdefault(act.step, []).append(act)
        self._makers: dict[Step, dict[str, Step]] = {}
        made: dict[str, Step] = {}
        for step in bench.steps:
            names = dict.fromkeys(_parts_of(step))
            self._makers[step] = {name: made[name] for name in names if name in made}
            if step.makes is not None:
                made[same_name(step.makes.value)] = step

    def written(self, step: Step) -> Iterator[Wait]:
        """What the source itself says: the last step before that made a part it uses, named seams, and `after`."""
        before = self._bench.steps[: self._bench.steps.index(step)] if step in self._acts else []
        ids = {same_name(text.value) for text in step.after}
        yield from (Wait(first, "after", "", None) for first in before if same_name(first.id) in ids)
        for name, first in self._makers.get(step, {}).items():
            yield Wait(first, "part", self._bench.parts[name].called, None)
        for act in self._acts.get(step, []):
            if act.seam is not None and act.seam.act.step is not step and act.seam.act.step in before:
                yield Wait(act.seam.act.step, "seam", act.seam.name, None)

    def of(self, step: Step, first: Step, harm: Harm) -> Wait:
        """The reason why a step waits for another, when this harm comes of its not waiting."""
        if harm.rule == "crossed-before-pressed":
            return Wait(first, "press", "", harm.rule)
        for wait in self.written(step):
            if wait.first is first:
                return wait._replace(rule=harm.rule)
        if first.makes is not None and same_name(first.makes.value) in _parts_of(step):
            return Wait(first, "part", first.makes.value.strip(), harm.rule)
        for act in self._acts.get(first, []):
            if act.seam is not None and act.seam.act.step is step:
                return Wait(first, "seam", act.seam.name, harm.rule)
        ours, theirs = self._edges(step), self._edges(first)
        shared = [name for name in ours if name in theirs]
        if shared:
            return Wait(first, "edge", shared[0], harm.rule)
        pieces = [name for name in self._pieces(step) if name in self._pieces(first)]
        return Wait(first, "piece" if pieces else "rule", pieces[0] if pieces else "", harm.rule)

    def _edges(self, step: Step) -> list[str]:
        return [edge.called for act in self._acts.get(step, []) for edge in act.edges]

    def _pieces(self, step: Step) -> list[str]:
        acts = self._acts.get(step, [])
        return [cut.called for act in acts for cut in (*act.cuts, *(edge.cut for edge in act.edges))]


def _parts_of(step: Step) -> Iterator[str]:
    yield from (same_name(use.value) for use in step.uses)
    for entry in step.work:
        yield from _named(entry)


def _named(entry: Entry) -> Iterator[str]:
    yield from (thing.part for thing in entry.things)
    yield from (thing.part for side in entry.sides for thing in side)
