"""Cautions and terms: what can hurt is said before it does, and a word is explained where it is used."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from booklet.craft.load import constructions, operations, table
from booklet.plan.prose import plain
from tests.plan import small

PRESSING = """\
  - {id: fuse, title: Fuse, for: A, text: Fuse., work: [{fuse: neck facing}]}
  - {id: sew, title: Sew, text: Sew., caution: Mind the dog., work: [{sew: [front.side, back.side]}, {press: open}]}
  - {id: sew on, title: Sew on, text: Sew on., work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
"""


def hazards(tmp_path: Path, steps: str, view: str | None = None, head: str = small.HEAD) -> dict[str, list[str]]:
    made = small.plan(tmp_path, steps, view, head=head)
    return {step.id: [caution.hazard for caution in step.cautions] for step in made.steps if step.cautions}


def test_a_hazard_is_named_at_the_first_step_that_works_with_it(tmp_path: Path) -> None:
    """For each view: A irons in step 1, and B and C come to the iron in step 2. The writer's own comes last."""
    assert hazards(tmp_path, PRESSING) == {
        "fuse": ["Hot iron."],
        "sew": ["Machine needle.", "Hot iron.", "Take care."],
    }


def test_every_output_prints_the_same_words(tmp_path: Path) -> None:
    """In front and at a step, for all views and for one."""
    whole, one = small.plan(tmp_path, PRESSING), small.plan(tmp_path, PRESSING, "B")
    front = {caution.hazard: caution for caution in whole.cautions}
    assert small.step(whole, "fuse").cautions == (front["Hot iron."],)
    assert small.step(one, "sew").cautions == small.step(whole, "sew").cautions


def test_the_front_warns_of_the_tools_that_the_pattern_names(tmp_path: Path) -> None:
    """A cutter on the list of tools, pins in the prose; nothing of what is not used."""
    head = small.HEAD + "tools: [Rotary cutter and mat]\n"
    steps = "  - {id: sew, title: Sew, uses: [front], text: Pin it.}\n"
    found = [caution.hazard for caution in small.plan(tmp_path, steps, head=head).cautions]
    assert found == ["Pins.", "Rotary cutter."]
    steps = "  - {id: sew, title: Sew, uses: [front], text: Mark the pinstripe.}\n"
    assert small.plan(tmp_path, steps).cautions == []


CORD = "  - {id: cord, title: Cord, text: Thread it., work: [{casing: front.hem, turns: [1 in]}, {insert: cord}]}\n"
CORD_HEAD = small.HEAD.replace("  - {item: thread}", "  - {item: thread}\n  - {item: cord, length: 1 yd}")


@pytest.mark.parametrize(
    ("ages", "warned"),
    [("", False), ("for ages: [2, 10]\n", True), ("for ages: [17, 18]\n", False), ("for ages: [14, 16]\n", True)],
)
def test_cords_are_warned_of_on_childrens_clothes(tmp_path: Path, ages: str, warned: bool) -> None:
    """Source: EN 14682 (to 14 years); 16 CFR 1120.3 (sizes 2T to 16). Front, and at the step that threads the cord."""
    made = small.plan(tmp_path, CORD, head=CORD_HEAD + ages)
    front = [caution.hazard for caution in made.cautions]
    assert ("Cords on children's clothes." in front) is warned
    assert any(caution.hazard.startswith("Cords") for caution in small.step(made, "cord").cautions) is warned


@pytest.mark.parametrize(("ages", "warned"), [("[1, 6]", True), ("[2, 6]", True), ("[3, 6]", False)])
def test_small_parts_are_warned_of_under_three(tmp_path: Path, ages: str, warned: bool) -> None:
    """A caution of our own: 16 CFR 1501.3(d) exempts children's clothes and their buttons, so no rule is claimed."""
    steps = "  - {id: button, title: Button, text: Sew on., work: [{button: front.side, notion: button, count: 3}]}\n"
    made = small.plan(tmp_path, steps, head=f"{small.HEAD}for ages: {ages}\n")
    (said,) = [plain(c.says) for c in made.cautions if c.hazard.startswith("Small parts")] or [""]
    assert bool(said) is warned
    assert "CFR" not in said


def test_sleepwear_is_left_to_the_rules_of_the_place(tmp_path: Path) -> None:
    """Source: 16 CFR 1615 (to size 6X) and 1616 (7 to 14). On children's clothes alone."""
    made = small.plan(tmp_path, CORD, head=CORD_HEAD + "for ages: [2, 10]\n")
    (said,) = [plain(c.says) for c in made.cautions if c.hazard == "Clothes that children sleep in."]
    assert "16 CFR 1615 and 1616" in said
    assert "the rules where you live" in said


def test_every_row_has_a_source_and_short_sentences() -> None:
    """Plain writing asks for about twenty words a sentence: HHS, Plain Writing in One Page. A law's number is long."""
    for name in ("cautions", "glossary"):
        for word, row in table(name).items():
            kind = row["source"].split(":")[0].split(",")[0]
            assert kind in ("published", "common practice", "our choice"), (name, word)
            for sentence in re.split(r"(?<=[.])\s+", row["says"]):
                assert len(sentence.split()) <= 26, sentence


def test_every_hazard_of_an_operation_has_its_caution() -> None:
    """A row of operations.yaml that names a hazard can't be left unsaid."""
    named = {row.hazard for row in operations().values() if row.hazard}
    assert named <= set(table("cautions"))
    assert all(table("cautions")[hazard].get("step") == "true" for hazard in named)


def test_what_a_term_stands_for_is_there() -> None:
    """The operations and constructions of the glossary are those that the tool knows."""
    known = set(operations()) | set(constructions())
    for row in table("glossary").values():
        assert set(row.get("work", ())) <= known


def terms(tmp_path: Path, text: str, view: str | None = None, head: str = small.HEAD, **others: str) -> list[str]:
    steps = f"  - {{id: sew, title: Sew, uses: [front], text: {text}}}\n"
    for letter, said in others.items():
        steps += f"  - {{id: {letter}, title: Sew, for: {letter}, uses: [front], text: {said}}}\n"
    return [term.word for term in small.plan(tmp_path, steps, view, head=head).terms]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Sew it.", []),
        ("Understitch it and trim it.", ["Trim", "Understitch"]),
        ("Use a press cloth.", ["Press cloth"]),  # no `press`
        ("Fold it in half on the striped side.", []),
        ("Staystitching first.", ["Staystitch"]),
    ],
)
def test_only_the_words_that_are_used_are_explained(tmp_path: Path, text: str, expected: list[str]) -> None:
    """In whatever form they stand; the longer term wins over one inside it."""
    assert terms(tmp_path, text) == expected


def test_a_step_without_text_is_explained_by_its_work(tmp_path: Path) -> None:
    """The sewer reads `French seam` nowhere, but does one."""
    work = "{sew: [front.side, back.side], seam: french, passes: [3/8 in, 1/4 in], trim: 1/8 in}"
    made = small.plan(tmp_path, f"  - {{id: sew, title: Sew, work: [{work}]}}\n")
    assert "French seam" in [term.word for term in made.terms]


def test_the_patterns_own_terms_come_first(tmp_path: Path) -> None:
    """They win over the trade's, and are left out only where they are words of other views."""
    head = small.HEAD + "terms: {trim: Our word., vent dot: The dot., ruff: A ruff.}\n"
    assert terms(tmp_path, "Trim it.", head=head) == ["Ruff", "Trim", "Vent dot"]
    assert terms(tmp_path, "Trim it.", "A", head=head, C="Sew to the vent dot.") == ["Ruff", "Trim"]
    made = small.plan(tmp_path, "  - {id: sew, title: Sew, uses: [front], text: Trim it.}\n", head=head)
    assert [plain(term.meaning) for term in made.terms if term.word == "Trim"] == ["Our word."]
