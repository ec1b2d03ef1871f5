"""The order of steps against networkx, on random graphs of what is used, made and said to come after."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import networkx
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from booklet.finding import Finding
from tests.sew.making import sewn

SETTINGS = settings(max_examples=100, deadline=None, derandomize=True)
_MOVE = re.compile(r"Move step [0-9]+, “Do ([0-9]+)”, to (after|before) step [0-9]+, “Do ([0-9]+)”\.")
Wait = tuple[str, int, int]
RULES = {"uses": "part-made-later", "after": "step-before-its-after"}


class Plan(NamedTuple):
    """Steps that only use and make: `user[k]` uses what step k makes; `after`: pairs (first, then)."""

    user: tuple[int, ...]
    after: frozenset[tuple[int, int]]

    @property
    def steps(self) -> int:
        return len(self.user) + 1

    @property
    def waits(self) -> set[Wait]:
        """(why, first, then)."""
        return {("uses", made, user) for made, user in enumerate(self.user)} | {
            ("after", first, then) for first, then in self.after
        }

    @property
    def graph(self) -> networkx.DiGraph:
        graph = networkx.DiGraph()
        graph.add_nodes_from(range(self.steps))
        graph.add_edges_from((first, then) for _, first, then in self.waits)
        return graph

    def step(self, number: int) -> dict[str, Any]:
        uses = [f"p{number}", *(f"part {made}" for made, user in enumerate(self.user) if user == number)]
        step = {"id": f"s{number}", "title": f"Do {number}", "text": "Do it.", "uses": uses, "makes": f"part {number}"}
        after = [f"s{first}" for first, then in sorted(self.after) if then == number]
        return step | ({"after": after} if after else {})

    def broken(self, order: list[int]) -> set[Wait]:
        return {(why, first, then) for why, first, then in self.waits if order.index(first) > order.index(then)}

    def told(self, order: list[int]) -> set[Wait]:
        """Of a step that stands before the parts it uses, what it should come after is not told besides."""
        broken = self.broken(order)
        early = {then for why, _, then in broken if why == "uses"}
        return {(why, first, then) for why, first, then in broken if why == "uses" or then not in early}

    def findings(self, order: list[int]) -> list[Finding]:
        pieces = {
            f"p{number}": {"number": str(number + 1), "cut": {"self": "1"}, "edges": {"fold": {}}}
            for number in range(self.steps)
        }
        return sewn(pieces, [self.step(number) for number in order])[0]


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """One step at the end takes in all; the pairs of `after` make no ring."""
    count = draw(st.integers(2, 9))
    user = tuple(draw(st.integers(made + 1, count - 1)) for made in range(count - 1))
    pairs = [(first, then) for first in range(count) for then in range(first + 1, count)]
    return Plan(user, frozenset(draw(st.lists(st.sampled_from(pairs), max_size=6))))


@SETTINGS
@given(st.data())
def test_every_topological_order_sews(data: st.DataObject) -> None:
    """Orders as networkx gives them: not one finding."""
    plan = data.draw(plans())
    rank = data.draw(st.permutations(range(plan.steps)))
    order = list(networkx.lexicographical_topological_sort(plan.graph, key=rank.index))
    assert [finding.says for finding in plan.findings(order)] == []


@SETTINGS
@given(st.data())
def test_every_broken_wait_is_told_at_the_step_that_does_not_wait(data: st.DataObject) -> None:
    """In any order at all, the steps with findings are those that stand before something they wait for."""
    plan = data.draw(plans())
    order = data.draw(st.permutations(range(plan.steps)))
    findings = plan.findings(order)
    early = {f"s{then}" for _, _, then in plan.broken(order)}
    assert {finding.step for finding in findings if finding.rule in RULES.values()} == early


@SETTINGS
@given(st.data())
def test_the_place_that_a_mend_offers_is_the_nearest_of_all(data: st.DataObject) -> None:
    """By trying every place: there the fault is gone and none has come, and no place that does as much is nearer."""
    plan = data.draw(plans())
    rank = data.draw(st.permutations(range(plan.steps)))
    order = list(networkx.lexicographical_topological_sort(plan.graph, key=rank.index))
    step = order.pop(data.draw(st.integers(0, plan.steps - 1)))
    order.insert(data.draw(st.integers(0, len(order))), step)
    before = plan.told(order)
    assume(before)
    for finding in plan.findings(order):
        assert finding.step is not None
        move = _MOVE.fullmatch(finding.mend)
        assert move, finding.mend
        moved = int(move[1])
        rest = [other for other in order if other != moved]
        offered = rest.index(int(move[3])) + (move[2] == "after")
        at = order.index(moved)
        faults = {wait for wait in before if f"s{wait[2]}" == finding.step and _is(finding, wait)}
        mends = [
            place
            for place in range(len(rest) + 1)
            if (after := plan.told([*rest[:place], moved, *rest[place:]])) <= before and not after & faults
        ]
        assert len(faults) == 1, finding.says
        if mends:
            assert offered in mends, (order, finding.says, finding.mend)
            assert abs(offered - at) == min(abs(place - at) for place in mends)


def _is(finding: Finding, wait: Wait) -> bool:
    """Whether it is this wait that the finding tells of."""
    return finding.rule == RULES[wait[0]] and f"“Do {wait[1]}”" in finding.says
