"""The nearest place to which a misplaced step can move: found by sewing the view again with the step elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.sew.view import sew_view

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from booklet.model.pattern import Step
    from booklet.sew.bench import Bench

# How many places are tried for one step? Each costs one sewing of the view. Our choice: all, in a usual booklet.
MOST_TRIES = 120
# How many steps may all the tries of one check sew between them? Our choice, so that a long pattern takes no minutes.
MOST_STEPS = 8_000


class Budget:
    """The steps that the search may still sew. One for each check, so that what was checked before changes nothing."""

    def __init__(self) -> None:
        self.steps = MOST_STEPS

    def spend(self, steps: int) -> bool:
        self.steps -= max(steps, 1)
        return self.steps >= 0


def nearest_place(
    bench: Bench, step: Step, fault: tuple[Any, ...], spots: Callable[[Bench], set[tuple[Any, ...]]], budget: Budget
) -> str | None:
    """The mend in words, or None where no place mends the fault without making a new one."""
    if budget.steps <= 0:
        return None
    before = spots(bench)
    at = bench.steps.index(step)
    rest = [other for other in bench.steps if other is not step]
    for target in _outward(at, len(rest)):
        if not budget.spend(len(bench.steps)):
            return None
        order = [*rest[:target], step, *rest[target:]]
        after = spots(sew_view(bench.pattern, bench.view, bench.left_out, order))
        if fault not in after and after <= before:
            if target > at:
                return f"Move {step.called}, to after {rest[target - 1].called}."
            return f"Move {step.called}, to before {rest[target].called}."
    return None


def _outward(at: int, count: int) -> Iterator[int]:
    """Places by their distance from where the step stands now: at - 1, at + 1, at - 2, …"""
    for distance in range(1, MOST_TRIES // 2):
        if at + distance <= count:
            yield at + distance
        if at - distance >= 0:
            yield at - distance
