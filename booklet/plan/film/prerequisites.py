"""What must be sewn before each take, so that the garment looks there as it does in the booklet's order.

Two steps that handle the same thing keep their order; the bench says which do (check/order/related.py). Others may
change places: who films the sleeves before the collar sees no difference, and neither do the viewers.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.check.order.related import Related
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Pattern, Step, Take
    from booklet.plan.film.takes import Placed
    from booklet.sew.bench import Bench

# From how many steps on are they held to their written order, instead of comparing each with each? Our choice.
MOST_STEPS = 500
_NONE: frozenset[int] = frozenset()


class Item(NamedTuple):
    """A take in the order in which the garment is made, by its place in the film, from 0.

    step: its own, by its place in the view, None for a take of its own; sewn: the steps that must be sewn at its start;
    holds: those that must not be sewn yet; before: all items that come before it, as the bits of a number.
    """

    at: int
    step: int | None
    sewn: frozenset[int]
    holds: frozenset[int]
    before: int


class Prerequisites(NamedTuple):
    """steps: those that are filmed, in the view's order; items: in the order of making, which keeps every `before`."""

    steps: tuple[Step, ...]
    items: tuple[Item, ...]


def prerequisites(pattern: Pattern, bench: Bench, placed: Sequence[Placed], strict: bool = False) -> Prerequisites:
    """placed: the takes in their order in the film; strict: all steps keep their written order."""
    filmed = {one.step for one in placed}
    steps = tuple(step for step in pattern.steps_of(bench.view.letter) if step in filmed)
    below = _below(steps, bench, strict or len(steps) > MOST_STEPS)
    place = {step: at for at, step in enumerate(steps)}
    stands = [
        _on_step(place[one.step], below) if one.step is not None else _of_its_own(one.take, pattern, steps, below)
        for one in placed
    ]
    items: list[Item] = []
    for at in sorted(range(len(placed)), key=lambda at: (stands[at].where, at)):
        step, stand = placed[at].step, stands[at]
        mine = place[step] if step is not None else None
        before = 0
        for number, other in enumerate(items):
            sewn_first = other.step is not None and (other.step in stand.sewn or other.step == mine)
            if sewn_first or other.holds & stand.sewn or (other.step is None and mine in other.holds):
                before |= 1 << number
        items.append(Item(at, mine, stand.sewn, stand.holds, before))
    return Prerequisites(steps, tuple(items))


class _Stand(NamedTuple):
    """where: twice the number of steps that are sewn before it in the order of making, and 1 on the step itself."""

    where: int
    sewn: frozenset[int]
    holds: frozenset[int]


def _on_step(at: int, below: Sequence[frozenset[int]]) -> _Stand:
    return _Stand(2 * at + 1, below[at], _NONE)


def _of_its_own(take: Take | None, pattern: Pattern, steps: Sequence[Step], below: Sequence[frozenset[int]]) -> _Stand:
    """It shows the garment as it is where it stands, unless it says what it needs."""
    when = same_name(take.when.value) if take is not None and take.when is not None else "last"
    needs = same_name(take.needs.value) if take is not None and take.needs is not None else ""
    if needs in ("nothing", "finished"):
        when = "first" if needs == "nothing" else "last"
    elif needs:
        when = f"after {needs}"
    if when == "first":
        return _Stand(0, _NONE, _NONE)
    way, _, name = when.partition(" ")
    step = pattern.step(name)
    if way not in ("before", "after") or step is None:
        return _Stand(2 * len(steps), frozenset(range(len(steps))), _NONE)
    # A step that is not filmed still has its place: after the last one before it.
    at = sum(1 for other in steps if other.number < step.number)
    if step not in steps:
        at, way = at - 1, "after"
    if at < 0:
        return _Stand(0, _NONE, _NONE)
    above = frozenset(other for other in range(len(steps)) if at in below[other])
    if way == "before":
        return _Stand(2 * at, below[at], above | {at})
    return _Stand(2 * at + 2, below[at] | {at}, above)


def _below(steps: Sequence[Step], bench: Bench, strict: bool) -> list[frozenset[int]]:
    """Of each step, those that come before it, by way of others too."""
    if strict:
        return [frozenset(range(at)) for at in range(len(steps))]
    related = Related(bench)
    found: list[frozenset[int]] = []
    for at, step in enumerate(steps):
        mine: set[int] = set()
        for other in range(at - 1, -1, -1):
            if other not in mine and related.are(steps[other], step):
                mine |= {other, *found[other]}
        found.append(frozenset(mine))
    return found
