"""What each step waits for: found by sewing the view with all that may come later put after it.

Where a step must come before any one of several (a pocket before the last seam that closes its piece all round), the
one that is last in the written order is named.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.order.reach import Way, ways
from booklet.check.order.reasons import Reasons, Wait
from booklet.check.order.related import Related
from booklet.check.order.trial import Spent
from booklet.record import Record, fresh

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.check.order.trial import Harm, Trials
    from booklet.model.pattern import Step


class Standing(Record):
    """How a step stands in the order of its view.

    waits: the fewest direct reasons, latest first; all_before: everything that it waits for, by way of others too;
    follows: it speaks of the seam just sewn, by an earlier step, so that no other seam may come in between;
    tried: False where the trials ended before it, so that only what the source says is told.
    """

    step: Step
    earlier: Way
    later: Way
    waits: tuple[Wait, ...]
    all_before: frozenset[Step]
    follows: bool
    tried: bool = True
    awaited: list[Step] = fresh(default_factory=list)


def standings(trials: Trials) -> list[Standing]:
    """Every step of the view, in the written order."""
    related, reasons = Related(trials.bench), Reasons(trials.bench)
    found: dict[Step, Standing] = {}
    for at, step in enumerate(trials.written):
        earlier, later = ways(trials, related, step)
        closures = {other: found[other].all_before for other in trials.written[:at]}
        tried = earlier.tried and later.tried
        try:
            if not earlier.tried:
                raise Spent
            stopped = [(one.step, one.later.harm) for one in found.values() if one.later.stop is step]
            stopped += [(earlier.stop, earlier.harm)] if earlier.stop is not None else []
            waits = _Search(trials, reasons, at, closures).waits(stopped)
        except Spent:
            tried = False
            waits = _fewest(reasons.written(step), closures)
        before = frozenset(other for wait in waits for other in (wait.first, *closures[wait.first]))
        found[step] = Standing(step, earlier, later, tuple(waits), before, related.follows(step), tried)
        for wait in waits:
            found[wait.first].awaited.append(step)
    return list(found.values())


def _fewest(waits: Iterable[Wait], closures: dict[Step, frozenset[Step]]) -> list[Wait]:
    """Without those that another already implies, and one for each step."""
    each = {wait.first: wait for wait in waits if wait.first in closures}
    return [wait for wait in each.values() if not any(wait.first in closures[other] for other in each)]


class _Search:
    """One step's waits, from the latest to the earliest.

    A trial keeps the steps it is known to wait for before it and puts the rest after it. If it sews, there is no
    further wait; else the latest of the rest that must not come after it is found by halving.
    """

    def __init__(self, trials: Trials, reasons: Reasons, at: int, closures: dict[Step, frozenset[Step]]) -> None:
        self.trials = trials
        self.reasons = reasons
        self.step = trials.written[at]
        self.before = trials.written[:at]
        self.beyond = trials.written[at + 1 :]
        self.closures = closures
        self.waited: set[Step] = set()
        self.found: list[Wait] = []
        self.said = [wait.first for wait in reasons.written(self.step)]
        self.tries: dict[tuple[Step, ...], list[Harm]] = {}

    def waits(self, stopped: Sequence[tuple[Step, Harm | None]]) -> list[Wait]:
        """stopped: the steps that this one, moved alone, can't pass, and those that can't pass this one."""
        for first, harm in stopped[::-1]:
            if harm is not None and first not in self.waited:
                self._add(first, harm)
        while rest := [other for other in self.before if other not in self.waited]:
            if not self._harms(rest):
                break
            self._add(*self._latest(rest))
        return _fewest(sorted(self.found, key=lambda wait: -self.before.index(wait.first)), self.closures)

    def _latest(self, rest: list[Step]) -> tuple[Step, Harm]:
        """The latest that must not come after the step; what the source itself says is tried first."""
        safe, harmful = 0, len(rest)
        said = max((rest.index(other) for other in self.said if other in rest), default=None)
        first_tries = [] if said is None else [len(rest) - said, len(rest) - said - 1]
        while harmful - safe > 1 or first_tries:
            middle = first_tries.pop(0) if first_tries else (safe + harmful) // 2
            if not safe < middle < harmful:
                continue
            if self._harms(rest[len(rest) - middle :]):
                harmful = middle
            else:
                safe = middle
        return rest[len(rest) - harmful], self._harms(rest[len(rest) - harmful :])[0]

    def _harms(self, after: list[Step]) -> list[Harm]:
        key = tuple(after)
        if key not in self.tries:
            late = set(after)
            kept = [other for other in self.before if other not in late]
            self.tries[key] = self.trials.harms([*kept, self.step, *after, *self.beyond], ())
        return self.tries[key]

    def _add(self, first: Step, harm: Harm) -> None:
        self.found.append(self.reasons.of(self.step, first, harm))
        self.waited |= {first, *self.closures[first]}
