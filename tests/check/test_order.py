"""How steps stand: against networkx on random graphs, and on the demos by sewing every place that is called safe."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from pathlib import Path

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.check.engine import look, spot
from booklet.check.order.trial import Trials
from booklet.check.order.waits import Standing, standings
from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern, Step, View
from booklet.order import orders
from booklet.pipeline import check_folder
from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.sew.bench import Bench
from booklet.sew.view import runs_of, sew_view
from tests.command import DEMOS, ROOT
from tests.generate import generate
from tests.golden import check_golden
from tests.sew.making import pattern_of
from tests.sew.test_order import Plan, plans

SETTINGS = settings(max_examples=60, deadline=None, derandomize=True)
FOLDERS = [*(ROOT / "steps" / name for name in DEMOS), ROOT / "booklet" / "starter"]


def read(folder: Path) -> Pattern:
    pattern = build_pattern(read_folder(folder, Faults()), Faults())
    assert pattern is not None
    return pattern


PATTERNS = [read(folder) for folder in FOLDERS]
VIEWS = [(pattern, view) for pattern in PATTERNS for view in pattern.views.values()]
NAMES = [f"{pattern.name}-{view.letter}" for pattern, view in VIEWS]
every_view = pytest.mark.parametrize(("pattern", "view"), VIEWS, ids=NAMES)


def of_plan(plan: Plan, order: Sequence[int]) -> Trials:
    pieces = {
        f"p{number}": {"number": str(number + 1), "cut": {"self": "1"}, "edges": {"fold": {}}}
        for number in range(plan.steps)
    }
    pattern = pattern_of(pieces, [plan.step(number) for number in order])
    return Trials(pattern, pattern.views["A"], 10**6)


def spots(bench: Bench) -> set[tuple[object, ...]]:
    return {spot(rule, item) for rule, item in look(bench)}


def speaks(bench: Bench) -> dict[int, tuple[int, int]]:
    """By entry, the entries of the seam and of other work that it spoke of."""
    return {
        id(act.entry): (id(act.seam.act.entry) if act.seam else 0, id(act.target.entry) if act.target else 0)
        for act in bench.acts
    }


class Written:
    """A view's written order, to compare others with: no short cut of the analysis is taken here."""

    def __init__(self, pattern: Pattern, view: View) -> None:
        self.pattern, self.view, self.order = pattern, view, pattern.steps_of(view.letter)
        self.benches = {run: sew_view(pattern, view, run) for run in runs_of(pattern, view)}

    def harmed(self, order: Sequence[Step], in_all_runs: bool = True) -> bool:
        """Whether there is a new finding, or an entry that speaks of another seam."""
        for run, bench in self.benches.items():
            if run and not in_all_runs:
                break
            other = sew_view(self.pattern, self.view, run, order)
            if spots(other) - spots(bench) or speaks(other) != speaks(bench):
                return True
        return False

    def with_moved(self, at: int, to: int) -> list[Step]:
        rest = [*self.order[:at], *self.order[at + 1 :]]
        return [*rest[:to], self.order[at], *rest[to:]]


@every_view
def test_every_place_within_a_range_is_safe_and_the_next_is_not(pattern: Pattern, view: View) -> None:
    """In full at every place; without the optional steps too at the ends of the range, where the most was passed."""
    written = Written(pattern, view)
    for at, standing in enumerate(standings(Trials(pattern, view, 10**7))):
        assert standing.step is written.order[at]
        assert standing.tried
        first, last = at - standing.earlier.places, at + standing.later.places
        harmed = [
            to for to in range(first, last + 1) if written.harmed(written.with_moved(at, to), to in (first, last))
        ]
        assert harmed == [], standing.step.id
        assert (first == 0) == (standing.earlier.stop is None)
        assert (last == len(written.order) - 1) == (standing.later.stop is None)
        for beyond in ([first - 1] if first else []) + ([last + 1] if standing.later.stop else []):
            assert written.harmed(written.with_moved(at, beyond)), (standing.step.id, beyond)


@every_view
def test_every_wait_is_kept_by_the_written_order_and_none_implies_another(pattern: Pattern, view: View) -> None:
    """The fewest reasons: nothing is waited for twice, directly and by way of another."""
    found = {standing.step: standing for standing in standings(Trials(pattern, view, 10**7))}
    place = {step: at for at, step in enumerate(found)}
    for step, standing in found.items():
        firsts = [wait.first for wait in standing.waits]
        assert len(set(firsts)) == len(firsts)
        assert all(place[first] < place[step] for first in firsts)
        assert not any(first in found[other].all_before for first in firsts for other in firsts)
        assert all(step in found[first].awaited for first in firsts)


def shuffled(found: Sequence[Standing], chance: random.Random) -> Iterator[Step]:
    """An order that keeps every wait. What speaks of the seam just sewn stays at its place behind the step before."""
    done: set[Step] = set()
    left = list(found)
    while left:
        ready = [each for each in left if each.all_before <= done]
        hurried = [each for each in ready if each.follows]
        chosen = hurried[0] if hurried else chance.choice(ready)
        left.remove(chosen)
        done.add(chosen.step)
        yield chosen.step


@every_view
def test_shuffles_that_keep_the_waits_have_no_findings(pattern: Pattern, view: View) -> None:
    """Ten orders of each view, by chance but the same each time, with the optional steps and without.

    A pocket is to be sewn on before the last of the seams that close its piece all round, whichever that is: no wait
    for one step says so, and pocket-too-late is left out here.
    """
    trials = Trials(pattern, view, 10**7)
    found = standings(trials)
    chance = random.Random(f"{pattern.name} {view.letter}")
    for _ in range(10):
        order = list(shuffled(found, chance))
        new = {rule for key, (rule, _) in trials.faults(order).items() if key not in trials.own}
        assert new <= {"pocket-too-late"}, [step.id for step in order]
        assert new or not trials.harms(order), "an entry speaks of another seam"


@SETTINGS
@given(st.data())
def test_the_waits_are_the_transitive_reduction(data: st.DataObject) -> None:
    """Of the graph of uses and `after`, as networkx has it."""
    plan = data.draw(plans())
    rank = data.draw(st.permutations(range(plan.steps)))
    order = list(networkx.lexicographical_topological_sort(plan.graph, key=rank.index))
    reduced = networkx.transitive_reduction(plan.graph)
    for standing in standings(of_plan(plan, order)):
        number = int(standing.step.id[1:])
        assert {int(wait.first.id[1:]) for wait in standing.waits} == set(reduced.predecessors(number))
        assert {int(step.id[1:]) for step in standing.awaited} == set(reduced.successors(number))
        assert {int(step.id[1:]) for step in standing.all_before} == networkx.ancestors(plan.graph, number)
        for wait in standing.waits:
            first = int(wait.first.id[1:])
            whys = {why for why, one, then in plan.waits if (one, then) == (first, number)}
            assert wait.why in {{"uses": "part", "after": "after"}[why] for why in whys}


@SETTINGS
@given(st.data())
def test_a_range_ends_at_the_nearest_step_that_is_tied(data: st.DataObject) -> None:
    """Earlier at the last step waited for, later at the first that waits; with none, at the end of the order."""
    plan = data.draw(plans())
    rank = data.draw(st.permutations(range(plan.steps)))
    order = list(networkx.lexicographical_topological_sort(plan.graph, key=rank.index))
    for at, standing in enumerate(standings(of_plan(plan, order))):
        before = [order.index(other) for other in networkx.ancestors(plan.graph, order[at])]
        after = [order.index(other) for other in networkx.descendants(plan.graph, order[at])]
        assert standing.earlier.places == at - max(before, default=-1) - 1
        assert standing.later.places == min(after, default=len(order)) - at - 1


def test_a_long_view_is_tried_as_far_as_it_may_be_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A hundred steps and what twenty sewings cost: the rest is told from the source, and marked."""
    monkeypatch.setattr("booklet.check.order.trial.MOST_STEPS", 20 * 100)
    generate(100, tmp_path / "cloth")
    pattern = read(tmp_path / "cloth")
    trials = Trials(pattern, pattern.views["A"])
    found = standings(trials)
    assert trials.left > -2 * 100 * 100
    assert not found[-1].tried
    untried = [standing for standing in found if not standing.tried]
    assert any(wait.why == "part" for standing in untried for wait in standing.waits)
    assert all(wait.rule is None for standing in untried for wait in standing.waits)
    checked = check_folder(tmp_path / "cloth", ["A"])
    lines = orders(checked, "A", None, suggest=False).lines
    assert any(line.startswith("This view is long: ") for line in lines)
    assert any("at least " in line or line.endswith("not tried") for line in lines)


@pytest.mark.parametrize(("demo", "letter"), [(DEMOS[0], "C"), (DEMOS[1], "B"), (DEMOS[2], "A")])
def test_golden_orders_of_the_demos(demo: str, letter: str) -> None:
    answer = orders(check_folder(ROOT / "steps" / demo, [letter]), letter, None, suggest=False)
    assert answer.code == 0
    check_golden(f"{demo}/order-{letter}.txt", "\n".join([*answer.lines, ""]).encode())
