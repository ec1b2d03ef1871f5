"""A step has one number in a pattern, the same in every plan; a plan of one view says what it leaves out and why."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.plan.plan import Gap, Plan
from tests.plan import small

SECTIONS = """\
=== 10-body.yaml
section: Body
steps:
  - {id: one, title: One, uses: [front], text: All.}
  - {id: two, title: Two, for: A, uses: [front], text: A alone.}
  - {id: three, title: Three, for: [B, C], uses: [front], text: Two views.}
=== 20-sleeves.yaml
section: Sleeves
text: Only with sleeves.
steps:
  - {id: four, title: Four, for: B, uses: [sleeve], text: B alone.}
  - {id: five, title: Five, for: B, uses: [sleeve], text: B alone.}
  - {id: six, title: Six, for: B, uses: [sleeve], text: B alone.}
  - {id: seven, title: Seven, for: C, uses: [sleeve], text: C alone.}
=== 30-finish.yaml
section: Finish
steps:
  - {id: eight, title: Eight, uses: [front], text: "All. See step {step: five}."}
  - {id: nine, title: Nine, for: C, uses: [front], text: C alone.}
"""


def told(plan: Plan) -> list[str]:
    """The plan as a reader runs down it: section titles, numbers, and the sentences of the gaps."""
    lines: list[str] = []
    for section in plan.sections:
        lines.append(section.title)
        lines += [item.says if isinstance(item, Gap) else str(item.number) for item in section.items]
    return lines


@pytest.mark.parametrize(
    ("view", "expected"),
    [
        (None, ["Body", "1", "2", "3", "Sleeves", "4", "5", "6", "7", "Finish", "8", "9"]),
        (
            "A",
            [
                "Body", "1", "2", "Step 3 is for views B and C.",
                "Finish", "Steps 4 to 6 are for view B; step 7 is for view C.", "8", "Step 9 is for view C.",
            ],
        ),
        (
            "B",
            [
                "Body", "1", "Step 2 is for view A.", "3", "Sleeves", "4", "5", "6", "Step 7 is for view C.",
                "Finish", "8", "Step 9 is for view C.",
            ],
        ),
    ],
)  # fmt: skip
def test_numbers_are_the_patterns_own_and_gaps_say_whose_the_others_are(
    tmp_path: Path, view: str | None, expected: list[str]
) -> None:
    """A section of which the view sews nothing is passed over, and its numbers are accounted for all the same."""
    assert told(small.plan(tmp_path, SECTIONS, view)) == expected


def test_a_gap_at_the_end_of_all_goes_to_the_last_section(tmp_path: Path) -> None:
    """Also when the sections after it are of other views altogether."""
    steps = SECTIONS.split("=== 30-finish.yaml")[0]
    assert told(small.plan(tmp_path, steps, "A"))[-2:] == [
        "Step 3 is for views B and C.",
        "Steps 4 to 6 are for view B; step 7 is for view C.",
    ]


def test_a_gap_names_its_numbers_in_short(tmp_path: Path) -> None:
    """With a dash from the first to the last, as in a margin."""
    items = [item for section in small.plan(tmp_path, SECTIONS, "A").sections for item in section.items]
    assert [item.numbers for item in items if isinstance(item, Gap)] == ["3", "4–7", "9"]


def test_a_step_is_spoken_of_by_number_also_where_it_is_left_out(tmp_path: Path) -> None:
    """View A does not sew step 5, and reads of it by the number that every other reader knows."""
    made = small.plan(tmp_path, SECTIONS, "A")
    assert "See step 5." in "".join(span.text for block in small.step(made, "eight").text for span in block.spans)


def test_the_reader_of_one_view_sews_all_that_is_shown(tmp_path: Path) -> None:
    """`everyone` is of the plan's own views."""
    assert all(step.everyone for step in small.plan(tmp_path, SECTIONS, "B").steps)
    whole = small.plan(tmp_path, SECTIONS)
    assert [step.number for step in whole.steps if not step.everyone] == [2, 3, 4, 5, 6, 7, 9]


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_demos_steps_are_the_same_in_every_plan(name: str) -> None:
    """Number, words, cautions and figures of a step don't depend on which output it stands in."""
    edition = small.demo(name)
    whole = {step.id: step for step in edition.plan.steps}
    for letter in edition.pattern.views:
        for step in edition.view_plan(letter).steps:
            same = whole[step.id]
            assert (step.number, step.title, step.text) == (same.number, same.title, same.text)
            assert (step.tip, step.cautions, step.figures) == (same.tip, same.cautions, same.figures)


@pytest.mark.parametrize("name", small.DEMOS)
def test_every_number_of_a_demo_is_a_step_or_in_a_gap(name: str) -> None:
    """In each view no number is missing without a word."""
    edition = small.demo(name)
    for letter in edition.pattern.views:
        seen: list[int] = []
        for section in edition.view_plan(letter).sections:
            for item in section.items:
                seen += _numbers(item.numbers) if isinstance(item, Gap) else [item.number]
        assert seen == [step.number for step in edition.pattern.steps]


def _numbers(said: str) -> list[int]:
    found: list[int] = []
    for run in said.split(", "):
        first, _, last = run.partition("–")
        found += range(int(first), int(last or first) + 1)
    return found


def test_a_plan_of_one_view_does_not_depend_on_which_benches_it_is_given(tmp_path: Path) -> None:
    """`list --view B` sews view B alone, and prints what the build prints."""
    from booklet.pipeline import check_folder, edition_of

    folder = small.STEPS / "saltmarsh-tunic"
    alone = check_folder(folder, ["C"])
    assert alone.pattern is not None
    made = edition_of(alone).view_plan("C")
    assert made == small.demo("saltmarsh-tunic").view_plan("C")
