"""Orders with few changes, against every order of small plans."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from itertools import combinations, permutations

import pytest

from booklet.plan.film.prerequisites import Item
from booklet.plan.film.samples import cut, runs_needed, ways
from booklet.plan.film.sequence import blocks_in, fewest_blocks


def plan(chance: random.Random, things: int, share: float) -> list[int]:
    """What must come before each thing, as bits, by way of others too. share: of all pairs, those that must."""
    before: list[int] = []
    for thing in range(things):
        mine = 0
        for other in range(thing):
            if chance.random() < share:
                mine |= 1 << other | before[other]
        before.append(mine)
    return before


def keeps(order: Sequence[int], before: Sequence[int]) -> bool:
    done = 0
    for each in order:
        if before[each] & ~done:
            return False
        done |= 1 << each
    return True


def orders(before: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Every order that keeps what must come before, by trying all."""
    return (order for order in permutations(range(len(before))) if keeps(order, before))


def small_plans(count: int, things: int) -> Iterator[tuple[list[int], list[int]]]:
    chance = random.Random(20)
    for _ in range(count):
        size = chance.randint(1, things)
        yield [chance.randrange(3) for _ in range(size)], plan(chance, size, chance.random())


def items_of(before: Sequence[int], steps: Sequence[int | None]) -> list[Item]:
    nothing: frozenset[int] = frozenset()
    return [Item(at, step, nothing, nothing, mask) for at, (step, mask) in enumerate(zip(steps, before, strict=True))]


def test_no_order_has_fewer_changes() -> None:
    """Two hundred plans of up to seven takes, each against every order there is."""
    for kinds, before in small_plans(200, 7):
        found = fewest_blocks(kinds, before)
        best = min(blocks_in(order, kinds) for order in orders(before))
        assert keeps(found.order, before)
        assert blocks_in(found.order, kinds) == found.blocks == best == found.at_least, (kinds, before)


def test_a_narrow_search_says_how_good_it_is() -> None:
    """With one row kept the answer may be worse, and its bound is never above the best."""
    worse = 0
    for kinds, before in small_plans(150, 7):
        found = fewest_blocks(kinds, before, width=1)
        best = min(blocks_in(order, kinds) for order in orders(before))
        assert keeps(found.order, before)
        assert found.at_least <= best <= found.blocks == blocks_in(found.order, kinds)
        worse += found.at_least < found.blocks
    assert worse, "some answers of a narrow search are not proven"


def test_never_worse_than_the_given_order() -> None:
    """Long plans too."""
    chance = random.Random(3)
    for things in (20, 60, 120):
        kinds, before = [chance.randrange(5) for _ in range(things)], plan(chance, things, 3 / things)
        found = fewest_blocks(kinds, before, width=50)
        assert sorted(found.order) == list(range(things))
        assert keeps(found.order, before)
        assert len(set(kinds)) <= found.at_least <= found.blocks <= blocks_in(range(things), kinds)


def test_nothing_and_one_kind() -> None:
    assert fewest_blocks([], []) == ((), 0, 0)
    assert fewest_blocks([7, 7, 7], [0, 1, 3]) == ((0, 1, 2), 1, 1)


def fewest_runs(items: Sequence[Item], order: Sequence[int]) -> int:
    """By trying every way to cut between steps."""
    place = {item: at for at, item in enumerate(order)}
    starts = [at for at in range(1, len(items)) if items[at].step is None or items[at].step != items[at - 1].step]
    for count in range(len(starts) + 1):
        for cuts in combinations(starts, count):
            waits = cut([item.before for item in items], cuts)
            if all(
                place[other] < place[at]
                for at, mask in enumerate(waits)
                for other in range(len(items))
                if mask >> other & 1
            ):
                return count + 1
    raise AssertionError("a sample for each step is always enough")


def test_no_order_of_filming_could_do_with_fewer_samples() -> None:
    """Orders at random, steps of one, two or three takes, against every way to cut."""
    chance = random.Random(4)
    for _ in range(150):
        steps: list[int | None] = []
        while len(steps) < 7:
            steps += [chance.choice([None, len(steps)])] * chance.randint(1, 3)
        steps = steps[:7]
        before = plan(chance, 7, chance.random())
        for at in range(1, 7):
            if steps[at] is not None and steps[at] == steps[at - 1]:
                before[at] |= 1 << (at - 1) | before[at - 1]
        before = closed(before)
        items = items_of(before, steps)
        order = list(range(7))
        chance.shuffle(order)
        # The takes of one step are filmed in their order.
        order = in_step_order(order, steps)
        assert len(runs_needed(items, order)) + 1 == fewest_runs(items, order), (steps, before, order)


def closed(before: list[int]) -> list[int]:
    for at, mask in enumerate(before):
        for other in range(at):
            if mask >> other & 1:
                before[at] |= before[other]
    return before


def in_step_order(order: list[int], steps: Sequence[int | None]) -> list[int]:
    waiting = {
        step: sorted((each for each in order if steps[each] == step), reverse=True) for step in set(steps) - {None}
    }
    return [each if steps[each] is None else waiting[steps[each]].pop() for each in order]


@pytest.mark.parametrize("samples", [1, 2])
def test_ways_with_samples_against_every_cut_and_order(samples: int) -> None:
    """One sample: the fewest changes that any cut and any order comes to; two: no more, and not below the bound."""
    for kinds, before in small_plans(40, 6):
        items = items_of(before, list(range(len(before))))
        found = ways(kinds, items, samples)
        best = min(
            blocks_in(order, kinds)
            for cuts in combinations(range(1, len(before)), min(samples, len(before) - 1))
            for order in orders(cut(before, cuts))
        )
        last = found[-1].ordered
        assert last.at_least <= last.blocks
        assert best <= last.blocks
        if samples == 1:
            assert last.blocks == best, (kinds, before)
        if len(found) == samples + 1:
            assert last.at_least <= best
        assert len(runs_needed(items, last.order)) <= len(found[-1].cuts)


def test_another_sample_is_only_told_where_it_saves_a_change() -> None:
    chance = random.Random(5)
    kinds, before = [chance.randrange(4) for _ in range(30)], plan(chance, 30, 0.4)
    found = ways(kinds, items_of(before, list(range(30))), 9)
    blocks = [way.ordered.blocks for way in found]
    assert [way.samples for way in found] == list(range(len(found)))
    assert blocks == sorted(set(blocks), reverse=True)
    assert len(found) > 2
