"""How far a step can move, either way, with nothing new to find: every place in between is safe too."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.check.order.related import Related
from booklet.check.order.trial import Spent

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from booklet.check.order.trial import Harm, Trials
    from booklet.model.pattern import Step

    Runs = Collection[frozenset[str]] | None


class Way(NamedTuple):
    """One way, earlier or later. places: how many other steps it may pass; stop: the first that it may not, and why.

    tried: False where the trials ended first, so that it may be more. With no stop it goes as far as there are steps.
    """

    places: int
    stop: Step | None = None
    harm: Harm | None = None
    tried: bool = True


def ways(trials: Trials, related: Related, step: Step) -> tuple[Way, Way]:
    """Earlier and later. related: of the written order."""
    return _way(trials, related, step, -1), _way(trials, related, step, 1)


def _way(trials: Trials, related: Related, step: Step, towards: int) -> Way:
    found = _walk(trials, related, step, towards, every=False)
    # What was passed as unrelated is sewn once more as a whole; were it not safe, each place would be sewn by itself.
    return found if found is not None else _walk(trials, related, step, towards, every=True) or Way(0, tried=False)


def _walk(trials: Trials, related: Related, step: Step, towards: int, every: bool) -> Way | None:
    """Place by place. A step that has nothing to do with this one is passed untried, unless `every` place is to be."""
    at = trials.written.index(step)
    ahead = trials.written[at + 1 :] if towards > 0 else trials.written[:at][::-1]
    sure = 0
    for places, other in enumerate(ahead):
        if not every and not related.are(step, other):
            continue
        try:
            runs = None if every else _touched(trials, related, step, other)
            order = moved(trials.written, at, at + towards * (places + 1))
            harm, after = _swapped(trials, (step, other), order, runs) if places == 0 else _tried(trials, order, runs)
            if harm is not None:
                safe = sure == places or not trials.harms(moved(trials.written, at, at + towards * places))
                return Way(places, other, harm) if safe else None
        except Spent:
            return Way(sure, tried=False)
        sure, related = places + 1, after
    try:
        if sure < len(ahead) and trials.harms(moved(trials.written, at, at + towards * len(ahead))):
            return None
    except Spent:
        return Way(sure, tried=False)
    return Way(len(ahead))


def _swapped(trials: Trials, two: tuple[Step, Step], order: Sequence[Step], runs: Runs) -> tuple[Harm | None, Related]:
    """Two neighbours of the written order: one's first place later is the other's first place earlier, tried once."""
    key = frozenset(two), runs is None
    outcome = trials.swaps.pop(key, None)
    if outcome is None:
        outcome = trials.swaps[key] = _tried(trials, order, runs)
    return outcome


def _tried(trials: Trials, order: Sequence[Step], runs: Runs) -> tuple[Harm | None, Related]:
    """The first harm of an order; and what is related in it, where there is none."""
    harms = trials.harms(order, runs)
    return harms[0] if harms else None, Related(trials.last)


def _touched(trials: Trials, related: Related, step: Step, other: Step) -> list[frozenset[str]]:
    """The runs in which two steps may change places with another outcome than in full: what they leave out is tied."""
    optional = {each.id: each for each in trials.written if each.optional}
    return [
        run
        for run in trials.runs
        if not {step.id, other.id} & run
        and any(related.are(optional[name], each) for name in run for each in (step, other))
    ]


def moved(order: tuple[Step, ...], at: int, to: int) -> list[Step]:
    """The order with the step at one place put at another."""
    rest = [*order[:at], *order[at + 1 :]]
    return [*rest[:to], order[at], *rest[to:]]
