"""What each step's figures of the pieces show, and what they say of it."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from booklet.plan.picture import StepFigure
from booklet.plan.picture_words import MOST_WORDS
from booklet.plan.pictures import MOST, looks
from booklet.plan.plan import PlanStep
from booklet.publish.booklet import booklet_html
from booklet.publish.outputs import all_files
from tests.plan import small

# Steps of the demos that no printed booklet would illustrate with the pieces, and why.
UNSHOWN = {
    "saltmarsh-tunic": {
        "try on": "it is worn, not sewn",
        "last press": "the iron goes over all of it, and nothing changes its place",
    },
    "lantern-tote": {
        "strip ends": "the work says that parts are pressed, and not which edge of them",
        "turn the bag": "the whole bag, of nine pieces, which no flat figure of its pieces shows",
    },
    "pebble-joggers": {
        "try on": "it is worn, not sewn",
        "last press": "the iron goes over all of it, and nothing changes its place",
    },
}


def steps(demo: str) -> Iterator[tuple[PlanStep, list[StepFigure]]]:
    for step in small.demo(demo).plan.steps:
        yield step, [figure for figure in step.figures if isinstance(figure, StepFigure)]


def figures(demo: str) -> Iterator[tuple[PlanStep, StepFigure]]:
    for step, found in steps(demo):
        for figure in found:
            yield step, figure


def figure_of(demo: str, name: str, kind: str) -> StepFigure:
    """The first figure of a step on which hands do something."""
    return next(
        figure for step, figure in figures(demo) if step.id == name and any(mark.kind == kind for mark in figure.marks)
    )


@pytest.mark.parametrize("demo", small.DEMOS)
def test_every_step_that_a_booklet_would_illustrate_has_a_figure(demo: str) -> None:
    """The few that have none are listed with their reason, and only they."""
    without = {step.id for step, found in steps(demo) if not found}
    assert without == set(UNSHOWN[demo])


@pytest.mark.parametrize("demo", small.DEMOS)
def test_no_step_has_more_figures_than_can_be_followed_and_none_repeats_another(demo: str) -> None:
    """Two views may each have a figure of their own beside what they share."""
    for _, found in steps(demo):
        assert len(found) <= MOST + 1
        assert len({looks(figure) for figure in found}) == len(found)


@pytest.mark.parametrize("demo", small.DEMOS)
def test_captions_are_short(demo: str) -> None:
    """Six words at most, the letters of the views before them not counted."""
    for _, figure in figures(demo):
        words = figure.caption.partition(": ")[2] if figure.caption.startswith("View") else figure.caption
        assert len(words.split()) <= MOST_WORDS, figure.caption


@pytest.mark.parametrize("demo", small.DEMOS)
def test_alternative_text_names_a_piece_that_the_figure_shows(demo: str) -> None:
    """Or the part that it went into; in one sentence that begins with a capital and ends with a stop."""
    parts = {step.makes.value.lower() for step in small.demo(demo).pattern.steps if step.makes}
    for step, figure in figures(demo):
        named = {cloth.called for cloth in figure.cloths} | parts
        assert any(name in figure.shows for name in named), (step.id, figure.shows)
        assert figure.shows[0].isupper()
        assert figure.shows.endswith(".")
        assert ".." not in figure.shows


@pytest.mark.parametrize("demo", small.DEMOS)
def test_marks_are_on_cloths_of_the_figure(demo: str) -> None:
    for _, figure in figures(demo):
        assert figure.marks
        assert all(0 <= mark.cloth < len(figure.cloths) for mark in figure.marks)


def test_booklet_page_and_lists_have_the_same_figures() -> None:
    """Each figure's alternative text stands in the page as often as the plan has it; the booklet is made from the same
    plan."""
    edition = small.demo("lantern-tote")
    page = next(data for name, data in all_files(edition, "page").items() if name.endswith(".html")).decode()
    html = booklet_html_of(edition)
    for _, figure in figures("lantern-tote"):
        assert figure.shows in page
        assert figure.caption in html


def booklet_html_of(edition: object) -> str:
    from booklet.publish.edition import Edition

    assert isinstance(edition, Edition)
    return booklet_html(edition.plan, edition.drawings, edition.key, "letter")


def test_a_seam_is_laid_with_its_sides_together_and_says_how() -> None:
    """The issue's own example in our words: what lies on what, which edges are matched, where it is stitched."""
    figure = figure_of("saltmarsh-tunic", "face armholes", "stitch")
    assert figure.shows == (
        "The armhole facings lie face down on the body, armholes matched; stitched 5/8 in from the edge; "
        "the allowances trimmed to 1/4 in; clipped every 1/2 in."
    )
    assert [cloth.face for cloth in figure.cloths] == ["right", "right", "wrong", "wrong"]


def test_a_french_seam_is_shown_in_both_its_rows() -> None:
    """Wrong sides together first; then, folded on the first row, right sides together."""
    found = [figure for step, figure in figures("saltmarsh-tunic") if step.id == "shoulders"]
    assert [cloth.face for cloth in found[0].cloths] == ["wrong", "right"]
    assert [cloth.face for cloth in found[1].cloths] == ["right", "wrong"]
    assert found[1].cloths[0].ends_at[0][0] == "shoulder"
    assert str(found[1].marks[0].more[0]) == "1/4 in"


def test_a_slit_is_cut_down_the_fold_and_its_facing_turned_in() -> None:
    """It can't be opened out, so that the second figure shows it from the wrong side."""
    found = [figure for step, figure in figures("saltmarsh-tunic") if step.id == "cut slit"]
    assert [mark.word for mark in found[0].marks if mark.kind == "clip"] == ["open"]
    assert [(cloth.called, cloth.how, cloth.face) for cloth in found[1].cloths] == [
        ("front", "alone", "wrong"),
        ("slit facing", "over", "right"),
    ]


def test_a_sleeve_in_its_armhole_is_shown_along_the_seam_with_pins() -> None:
    """An outward curve on an inward one can't lie flat; the ease is pinned."""
    figure = figure_of("saltmarsh-tunic", "set sleeves", "pins")
    sleeve = next(cloth for cloth in figure.cloths if "sleeve" in cloth.called)
    assert sleeve.strip == ("cap",)
    assert {meeting.other_edge for meeting in sleeve.meets} == {"armhole"}


def test_loops_and_buttons_are_as_many_as_the_entry_says() -> None:
    """Three loops for three buttons; of two cuff buttons one on each cuff."""
    assert figure_of("saltmarsh-tunic", "baste loops", "loop").marks[0].many == 3
    assert figure_of("saltmarsh-tunic", "buttons", "button").marks[0].many == 3
    assert figure_of("saltmarsh-tunic", "cuff buttons", "button").marks[0].many == 1


def test_two_ends_of_a_band_are_one_figure() -> None:
    """Both ends of the folded cuff are stitched in it."""
    figure = figure_of("saltmarsh-tunic", "cuffs", "stitch")
    ends = [edge for mark in figure.marks if mark.kind == "stitch" for edge in mark.edges]
    assert len(ends) == 2


def test_two_copies_of_one_piece_lie_face_down() -> None:
    """The bags of the tote: what shows is the wrong side of the upper copy."""
    figure = figure_of("lantern-tote", "outer sides", "stitch")
    assert {cloth.face for cloth in figure.cloths} == {"wrong"}
    assert "on the other copy" in figure.shows
