"""Rings of `after:` are found as a graph library finds them."""

from __future__ import annotations

import random

import networkx
import pytest

from booklet.check.ids import rings


def chance_graph(seed: int) -> dict[str, list[str]]:
    chance = random.Random(seed)
    names = [f"s{index}" for index in range(chance.randint(1, 12))]
    return {name: chance.sample(names, min(len(names), chance.choice((0, 0, 1, 1, 2, 3)))) for name in names}


@pytest.mark.parametrize("seed", range(200))
def test_a_group_of_steps_that_wait_for_one_another_is_found_as_networkx_finds_it(seed: int) -> None:
    """One ring for each strongly connected group of networkx; each ring leads along `after:` and back to its start."""
    after = chance_graph(seed)
    graph = networkx.DiGraph([(name, other) for name, others in after.items() for other in others])
    graph.add_nodes_from(after)
    groups = [group for group in networkx.strongly_connected_components(graph)
              if len(group) > 1 or graph.has_edge(*(tuple(group) * 2))]  # fmt: skip
    found = rings(after)
    assert bool(found) == (not networkx.is_directed_acyclic_graph(graph))
    assert len(found) == len(groups)
    for ring in found:
        assert any(set(ring) <= group for group in groups)
        assert all(following in after[name] for name, following in zip(ring, [*ring[1:], ring[0]], strict=True))


def test_ten_thousand_steps_in_a_row_are_no_ring() -> None:
    """No recursion: a long pattern must not exhaust the stack."""
    names = [str(index) for index in range(10_000)]
    assert rings({name: names[index - 1 : index] for index, name in enumerate(names)}) == []
