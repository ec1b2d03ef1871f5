"""The tunic's captions, of an invented recording of forty minutes, against the truth table beside this file."""

from __future__ import annotations

import pytest

from booklet.finding import Finding
from booklet.model.pattern import Pattern
from booklet.recorded.against import film_findings
from booklet.recorded.captions import read_captions
from booklet.recorded.chapters import Aligned, align
from booklet.recorded.takes import Candidate, candidates
from tests.recorded.scores import DEMOS, NEAR, pattern_of
from tests.recorded.truth import EXTRA, MISHEARD, NOT_FILMED, SWAPPED, TRUTH


@pytest.fixture(scope="module")
def tunic() -> Pattern:
    return pattern_of(DEMOS[0])


@pytest.fixture(scope="module")
def takes(tunic: Pattern) -> list[Candidate]:
    return candidates(tunic, "B")


@pytest.fixture(scope="module")
def aligned(takes: list[Candidate]) -> Aligned:
    """By the captions alone: what was settled by hand is no part of it."""
    cues, slips = read_captions((DEMOS[0] / "captions.vtt").read_text(encoding="utf-8"), srt=False)
    assert slips == []
    return align(cues, takes)


@pytest.fixture(scope="module")
def found(tunic: Pattern) -> list[Finding]:
    return film_findings(tunic)


def key(take: Candidate) -> str:
    return take.id or take.title


def test_the_truth_is_of_takes_that_there_are(takes: list[Candidate]) -> None:
    assert set(TRUTH) < {key(take) for take in takes}


def test_nineteen_of_twenty_chapters_are_within_ten_seconds(aligned: Aligned, takes: list[Candidate]) -> None:
    starts = {key(takes[one.take]): one.start for one in aligned.found}
    near = [name for name, true in TRUTH.items() if abs(starts.get(name, -99) - true) <= NEAR]
    assert len(near) >= 0.95 * len(TRUTH), set(TRUTH) - set(near)


def test_none_is_sure_and_wrong(aligned: Aligned, takes: list[Candidate]) -> None:
    sure = {key(takes[one.take]): one.start for one in aligned.found if one.sure}
    wrong = {name: start for name, start in sure.items() if abs(start - TRUTH.get(name, -99)) > NEAR}
    assert wrong == {}
    assert len(sure) > len(TRUTH) / 2


def test_the_step_that_was_left_out_is_named(found: list[Finding]) -> None:
    assert [one.step for one in found if one.rule == "step-not-filmed"] == [NOT_FILMED]


def test_the_steps_that_changed_places_are_named_and_the_order_still_sews(found: list[Finding]) -> None:
    (moved,) = (one for one in found if one.rule == "filmed-in-another-order")
    assert moved.step == SWAPPED[0]
    assert "step 15, “Sew the shoulders”" in moved.says
    assert "The garment comes out in this order too." in moved.says
    assert [one for one in found if one.rule == "filmed-order-does-not-sew"] == []


def test_the_extra_step_is_told_with_its_time(found: list[Finding], aligned: Aligned) -> None:
    (extra,) = (one for one in found if one.rule == "filmed-in-no-step")
    assert "“label”" in extra.says
    minutes, seconds = divmod(int(EXTRA), 60)
    assert f"From {minutes}:{seconds:02d} to" in extra.says


def test_the_three_misheard_measures_are_told_and_no_other(found: list[Finding]) -> None:
    told = {one.says for one in found if one.rule == "caption-misheard" and "inches" in one.says}
    assert len(told) == len(MISHEARD)
    for step, heard, printed in MISHEARD:
        (says,) = (one.says for one in found if one.step == step and one.rule == "caption-misheard")
        assert f"“{heard}”, and {printed} is printed" in says
    assert [one for one in found if one.rule == "measure-said-otherwise"] == []


def test_words_are_told_that_are_misheard_or_said_otherwise(found: list[Finding]) -> None:
    says = [one.says for one in found if one.rule in ("caption-misheard", "name-said-otherwise")]
    assert any("“bust darks”, and the booklet has “bust darts”" in one for one in says)
    assert any("“cuff” is said. The booklet calls it a band" in one for one in says)


def test_every_finding_stands_in_a_line_of_the_captions_or_of_the_source(found: list[Finding], tunic: Pattern) -> None:
    lines = (DEMOS[0] / "captions.vtt").read_text(encoding="utf-8").splitlines()
    for one in found:
        if one.place.file == "captions.vtt":
            assert lines[one.place.line - 1].strip()
            assert "-->" in lines[one.place.line - 2]
            assert all(other.place.file in tunic.texts for other in one.related)
        else:
            assert one.place.file in tunic.texts
