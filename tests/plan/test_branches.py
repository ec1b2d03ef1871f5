"""The views side by side, as data: every step is told once, and each view's steps are all there."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.plan.plan import Parting
from tests.plan.branching import branches
from tests.plan.small import DEMOS, demo, plan

STEPS = """\
  - {id: one, title: Mark, work: [{mark: [front.shoulder]}]}
  - {id: two, title: Mark again, for: sleeves, work: [{mark: [sleeve.cap]}]}
  - {id: three, title: Mark once more, for: long, work: [{mark: [sleeve.cap]}]}
  - {id: four, title: Mark the back, work: [{mark: [back.shoulder]}]}
"""


def test_runs_end_where_the_views_or_the_section_change() -> None:
    """Steps that follow each other for the same views are one run."""
    made = branches("* * A A | A BC * | *")
    assert [(run.numbers, run.views, run.begins) for run in made.runs] == [
        ((1, 2), ("A", "B", "C"), True),
        ((3, 4), ("A",), False),
        ((5,), ("A",), True),
        ((6,), ("B", "C"), False),
        ((7,), ("A", "B", "C"), False),
        ((8,), ("A", "B", "C"), True),
    ]


def test_branches_leave_after_a_shared_step_and_meet_at_the_next() -> None:
    """At the beginning and at the end of a pattern there is no such step."""
    made = branches("A * B | AC B * C")
    assert made.partings == (
        Parting(None, 2, 0, 1, {"A": (1,)}),
        Parting(2, 6, 2, 5, {"A": (4,), "B": (3, 5), "C": (4,)}),
        Parting(6, None, 6, 7, {"C": (7,)}),
    )


def test_what_a_view_adds_and_drops() -> None:
    """Added: what not all views sew, by who else sews it. Dropped: what others sew and it does not."""
    first, second, third = branches("* A AB * BC").shares
    assert (first.sews, first.adds, first.drops) == ((1, 2, 3, 4), (((), (2,)), (("B",), (3,))), (5,))
    assert (second.sews, second.adds, second.drops) == ((1, 3, 4, 5), ((("A",), (3,)), (("C",), (5,))), (2,))
    assert (third.sews, third.adds, third.drops) == ((1, 4, 5), ((("B",), (5,)),), (2, 3))


def test_the_sentences_name_every_step_once() -> None:
    assert branches("* * * A | AB * A").says == (
        "All views share steps 1 to 3 and 6.",
        "Steps 4 and 7 are for view A alone.",
        "Step 5 is for views A and B.",
    )
    assert branches("A B", ("A", "B")).says[0] == "No step is shared by both views."


def test_one_view_has_nothing_to_stand_beside(tmp_path: Path) -> None:
    """Nor has the plan of one view of several."""
    assert plan(tmp_path, STEPS, view="B").branches is None
    made = plan(tmp_path, STEPS).branches
    assert made is not None
    assert [share.sews for share in made.shares] == [(1, 4), (1, 2, 4), (1, 2, 3, 4)]


LETTERS = ("A", "B", "C", "D")
WORDS = st.lists(st.sampled_from(["*", "|", *LETTERS, "AB", "AC", "BD", "ABC", "BCD"]), min_size=1, max_size=40)


@given(WORDS)
def test_nothing_is_lost_or_told_twice(words: list[str]) -> None:
    """The runs are all steps in their order; shared, added and dropped steps make up the whole for every view."""
    made = branches(" ".join(words), LETTERS)
    numbers = [number for run in made.runs for number in run.numbers]
    assert numbers == sorted(set(numbers))
    assert len(numbers) == sum(word != "|" for word in words)
    for share in made.shares:
        added = [number for _, group in share.adds for number in group]
        assert sorted([*made.shared, *added]) == list(share.sews)
        assert sorted([*share.sews, *share.drops]) == numbers
    apart = [run for parting in made.partings for run in made.runs[parting.first : parting.end]]
    assert apart == [run for run in made.runs if run.views != LETTERS]


@pytest.mark.parametrize("name", DEMOS)
def test_each_view_sews_what_its_own_plan_lists(name: str) -> None:
    edition = demo(name)
    assert edition.plan.branches is not None
    for share in edition.plan.branches.shares:
        assert list(share.sews) == [step.number for step in edition.view_plan(share.letter).steps]
