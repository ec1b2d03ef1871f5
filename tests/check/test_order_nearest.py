"""The nearest order that sews: against brute force on small patterns, and on demos with a step put elsewhere."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import networkx
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from booklet.check.order.compare import longest_rising, moved_between
from booklet.check.order.nearest import nearest_order
from booklet.check.order.trial import Trials, is_error
from booklet.model.pattern import Pattern, View
from tests.check.test_order import NAMES, VIEWS, of_plan
from tests.sew.test_order import Plan, plans

SETTINGS = settings(max_examples=40, deadline=None, derandomize=True)


def fewest(written: Sequence[int], others: Sequence[Sequence[int]]) -> int:
    return min(len(written) - longest_common(written, other) for other in others)


def longest_common(one: Sequence[int], other: Sequence[int]) -> int:
    """By the table of the textbooks (Wagner and Fischer, 1974)."""
    above = [0] * (len(other) + 1)
    for each in one:
        row = [0]
        for at, there in enumerate(other):
            row.append(above[at] + 1 if each == there else max(above[at + 1], row[at]))
        above = row
    return above[-1]


@given(st.integers(0, 40).flatmap(lambda count: st.permutations(range(count))))
@example([])
def test_only_the_fewest_steps_are_said_to_move(order: list[int]) -> None:
    """What stays is a longest common subsequence, and keeps its order."""
    written = list(range(len(order)))
    moved = moved_between(written, order)
    assert len(order) - len(moved) == longest_common(written, order)
    assert [each for each in order if each not in moved] == [each for each in written if each not in moved]
    rising = [order[at] for at in longest_rising(order)]
    assert rising == sorted(rising)


@SETTINGS
@given(st.data())
def test_the_nearest_order_is_the_nearest_of_all(data: st.DataObject) -> None:
    """Up to five steps in any order: no order that sews has fewer steps moved, and it says that this is proven."""
    plan: Plan = data.draw(plans().filter(lambda plan: plan.steps <= 5))
    written = data.draw(st.permutations(range(plan.steps)))
    sound = [list(order) for order in itertools.permutations(written) if not plan.broken(list(order))]
    assert [list(order) for order in networkx.all_topological_sorts(plan.graph)] != []
    nearest = nearest_order(of_plan(plan, written))
    assert nearest.order is not None
    order = [int(step.id[1:]) for step in nearest.order]
    assert order in sound
    assert nearest.proven
    assert len(nearest.moved) == fewest(written, sound) == len(written) - longest_common(written, order)


@pytest.mark.parametrize(("pattern", "view"), VIEWS, ids=NAMES)
def test_a_written_order_that_sews_is_its_own_nearest(pattern: Pattern, view: View) -> None:
    trials = Trials(pattern, view)
    nearest = nearest_order(trials)
    assert nearest.order == trials.written
    assert nearest.moved == ()
    assert nearest.proven


@pytest.mark.parametrize(("pattern", "view"), VIEWS, ids=NAMES)
def test_one_step_too_late_is_brought_back(pattern: Pattern, view: View) -> None:
    """The first step that others wait for, put last: one move mends it, and one is the fewest."""
    trials = Trials(pattern, view)
    steps = list(trials.written)
    at = next(at for at in range(len(steps)) if trials.harms([*steps[:at], *steps[at + 1 :], steps[at]]))
    late = steps.pop(at)
    spoilt = Trials(pattern, view)
    spoilt.written = (*steps, late)
    spoilt.own = spoilt.faults(spoilt.written)
    nearest = nearest_order(spoilt)
    assert nearest.order is not None
    assert len(nearest.moved) <= 1
    assert not [rule for rule, _ in spoilt.faults(nearest.order).values() if is_error(rule)]


def test_where_no_order_sews_none_is_given() -> None:
    """Two steps that are to come after each other: every order was tried."""
    plan = Plan((2, 2), frozenset({(0, 1), (1, 0)}))
    nearest = nearest_order(of_plan(plan, [2, 0, 1]))
    assert nearest.order is not None, "a ring of `after` is no matter of order, and told by itself"
    ring = Plan((1, 2), frozenset({(1, 0)}))
    nearest = nearest_order(of_plan(ring, [0, 1, 2]))
    assert nearest.order is None
    assert nearest.proven


def test_with_few_trials_it_is_the_nearest_found_and_no_more_is_said() -> None:
    """Three pairs the wrong way round: three moves, unproven where the trials end before all with two were tried."""
    plan = Plan((1, 6, 3, 6, 5, 6), frozenset())
    written = [1, 0, 3, 2, 5, 4, 6]
    few = of_plan(plan, written)
    few.left = 7 * 200
    nearest = nearest_order(few)
    assert nearest.order is not None
    assert not nearest.proven
    assert len(nearest.moved) == 3
