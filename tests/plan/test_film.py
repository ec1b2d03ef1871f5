"""The film's plan: takes in their places, times given or estimated, chapters that a video can have."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.plan.film.chapters import FEWEST_CHAPTERS, SHORTEST_CHAPTER
from booklet.plan.film.recorded import chapters_at
from booklet.plan.film.takes import film_of
from booklet.plan.film.times import Timed
from booklet.plan.plan import Chapter, FilmPlan
from booklet.plan.write import Writer
from tests.plan import small

STEPS = """\
  - {id: one, title: One, text: Sew., work: [{sew: [front.side, back.side]}, {press: open}]}
  - {id: two, title: Two, for: A, text: Sew., work: [{hem: front.hem, turns: [1 in]}]}
  - id: three
    title: Three
    text: Sew.
    work: [{sew: [front.shoulder, back.shoulder]}]
    film:
      - {setup: machine, show: The seam 5/8 in wide, say: "As in step {step: one}.", minutes: 2}
      - {setup: TABLE, show: The result}
  - {id: four, title: Four, optional: true, text: Sew., work: [{press part: front}]}
"""
FILM = f"""\
view: B
pace: 100
setups: {{machine: Above the needle, table: From above}}
takes:
  - {{title: Bye, when: last, setup: table, minutes: 1}}
  - {{title: Hello, when: first, setup: table, say: "{" ".join(["word"] * 130)}"}}
  - {{title: Between, when: before two, minutes: 1}}
  - {{title: After, when: after three, minutes: 0.5}}
  - {{title: Hello again, when: first, minutes: 1}}
"""


def film(tmp_path: Path, film: str = FILM, steps: str = STEPS, view: str | None = None) -> FilmPlan | None:
    return small.plan(tmp_path, steps, view, film=film).films


@pytest.fixture
def made(tmp_path: Path) -> FilmPlan:
    found = film(tmp_path)
    assert found is not None
    return found


def test_takes_stand_where_they_are_placed(made: FilmPlan) -> None:
    """First and last, before and after; a step that the filmed view leaves out still has its place among the others."""
    assert [(shot.take, shot.step, shot.step_title) for shot in made.shots] == [
        (1, None, "Hello"), (2, None, "Hello again"), (3, 1, "One"), (4, None, "Between"), (5, 3, "Three"),
        (6, 3, "Three"), (7, None, "After"), (8, None, "Bye"),
    ]  # fmt: skip


def test_every_step_of_the_view_is_filmed_but_an_optional_one_only_with_a_take(made: FilmPlan) -> None:
    """Step 1 has no take of the writer's: its shot has no set-up and is estimated. Step 4 may be left out."""
    (shot,) = [shot for shot in made.shots if shot.step == 1]
    assert (shot.setup, shot.show, shot.estimated) == ("", "One", True)
    assert 4 not in [shot.step for shot in made.shots]


def test_times_are_given_or_estimated(made: FilmPlan) -> None:
    """130 words at 100 a minute take a minute and a half; a seam and a pressing 5 + 1 minutes, by the craft's table."""
    minutes = {(shot.step_title, shot.show): (shot.minutes, shot.estimated) for shot in made.shots}
    assert (
        minutes.items()
        >= {
            ("Hello", ""): (1.5, True),
            ("One", "One"): (6.0, True),
            ("Three", "The seam 5/8 in (1.5 cm) wide"): (2.0, False),
            ("Three", "The result"): (2.5, True),
        }.items()
    )
    assert made.seconds == sum(round(shot.minutes * 60) for shot in made.shots)


def test_what_is_shown_and_said_is_in_the_booklets_words(made: FilmPlan) -> None:
    """Measures in both systems, steps by their number, set-ups as the writer named them."""
    first, second = (shot for shot in made.shots if shot.step == 3)
    assert (first.show, first.say) == ("The seam 5/8 in (1.5 cm) wide", "As in step 1.")
    assert (first.setup, second.setup) == ("machine", "table")
    assert dict(made.setups)["machine"] == "Above the needle"


def test_chapters_are_steps_and_takes_of_their_own(made: FilmPlan) -> None:
    """The takes of one step are one chapter; its number is the booklet's."""
    assert [(chapter.start, chapter.title) for chapter in made.chapters] == [
        (0, "Hello"), (90, "Hello again"), (150, "Step 1: One"), (510, "Between"), (570, "Step 3: Three"),
        (840, "After"), (870, "Bye"),
    ]  # fmt: skip


def test_a_chapter_that_would_be_too_short_goes_with_the_next(tmp_path: Path) -> None:
    """Six seconds are no chapter; the last goes with the one before."""
    takes = [("Blink", "first", 0.1), ("Between", "before three", 1), ("Bye", "last", 0.05)]
    lines = "".join(f"  - {{title: {title}, when: {when}, minutes: {minutes}}}\n" for title, when, minutes in takes)
    made = film(tmp_path, f"view: B\ntakes:\n{lines}")
    assert made is not None
    assert [chapter.title for chapter in made.chapters] == ["Blink; Step 1: One", "Between", "Step 3: Three; Bye"]
    assert made.chapters[0].start == 0


def test_a_short_film_has_a_chapter_a_take(tmp_path: Path) -> None:
    """Three are needed, where there are three takes."""
    steps = STEPS.split("  - {id: one")[0] + STEPS[STEPS.index("  - id: three") : STEPS.index("  - {id: four")]
    steps = steps.replace("      - {setup: TABLE", "      - {show: Between}\n      - {setup: TABLE")
    steps = steps.replace("{step: one}", "it")
    made = film(tmp_path, "view: B\n", steps)
    assert made is not None
    assert [chapter.title for chapter in made.chapters] == [
        "Step 1: Three. The seam 5/8 in (1.5 cm) wide", "Step 1: Three. Between", "Step 1: Three. The result",
    ]  # fmt: skip


def test_without_a_film_file_the_first_view_is_planned(tmp_path: Path) -> None:
    """From its steps alone."""
    made = film(tmp_path, "")
    assert made is not None
    assert (made.view.letter, [shot.step for shot in made.shots]) == ("A", [1, 2, 3, 3])


def test_the_plan_of_another_view_has_no_film(tmp_path: Path) -> None:
    """View C is not filmed."""
    assert film(tmp_path, view="C") is None
    assert film(tmp_path, view="B") is not None


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_demos_chapters_keep_the_rules(name: str) -> None:
    """From 0:00, ascending, three or more, 10 s or more each: support.vevo.com/hc/en-us/articles/6945557784347."""
    made = small.demo(name).plan.films
    assert made is not None
    starts = [chapter.start for chapter in made.chapters]
    assert starts[0] == 0
    assert len(starts) >= FEWEST_CHAPTERS == 3
    lengths = [end - start for start, end in zip(starts, [*starts[1:], made.seconds], strict=True)]
    assert min(lengths) >= SHORTEST_CHAPTER == 10


@pytest.mark.parametrize("name", small.DEMOS)
def test_a_chapter_of_a_demo_has_the_number_and_title_of_its_step(name: str) -> None:
    """The same as in the booklet."""
    edition = small.demo(name)
    film = edition.plan.films
    assert film is not None
    known = {f"Step {step.number}: {step.title}" for step in edition.plan.steps}
    named = [chapter.title for chapter in film.chapters if chapter.title.startswith("Step ")]
    assert named
    assert set(named) <= known


TAKES = """\
  - id: one
    title: One
    text: Sew.
    work: [{sew: [front.side, back.side]}]
    film:
      - {setup: table, words: 420, note: [5/8 in, front, Hold it flat]}
      - {show: The seam, say: "Sew 5/8 in.", about views: "In view A sew 3/8 in."}
"""


def test_words_that_are_not_written_yet_take_their_time(tmp_path: Path) -> None:
    """420 words at 140 a minute are three minutes; those of other views are said too, and a measure is two words."""
    made = film(tmp_path, "view: B\n", TAKES)
    assert made is not None
    first, second = made.shots
    assert (first.words, first.minutes, first.estimated) == (420, 3.0, True)
    assert (second.words, second.others) == (9, "In view A sew 3/8 in (1 cm).")


def test_notes_for_the_screen_are_in_the_booklets_words(tmp_path: Path) -> None:
    """A measure in both systems, a piece with its number, and words."""
    made = film(tmp_path, "view: B\n", TAKES)
    assert made is not None
    assert [(note.kind, note.text) for note in made.shots[0].notes] == [
        ("words", "5/8 in (1.5 cm)"), ("piece", "Front (1)"), ("words", "Hold it flat"),
    ]  # fmt: skip


def test_a_longer_edge_takes_longer_where_its_length_is_known(tmp_path: Path) -> None:
    """A seam's five minutes hold for 50 cm: half of them go with the length, and never more than twice as many."""
    steps = "  - {id: one, title: One, text: Sew., work: [{sew: [front.side, back.side]}]}\n"
    pattern = small.pattern(tmp_path, steps)
    views = {view.letter: view for view in small.plan(tmp_path, steps).views}

    def minutes(millimetres: float | None) -> float:
        made = film_of(pattern, views, Writer(pattern), lambda _, edge: millimetres if edge == "side" else None)
        assert made is not None
        return made.shots[0].minutes

    assert [minutes(length) for length in (None, 500, 1000, 100, 9000)] == [5, 5, 7.5, 3, 10]


def test_edges_of_the_demos_are_measured() -> None:
    """The plan of an edition knows its outlines: the side of the tunic's front, in the size of the figures."""
    edition = small.demo("saltmarsh-tunic")
    length = edition._length("front", "side")
    assert length is not None
    assert 200 < length < 900
    assert edition._length("front", "no such edge") is None


def timed(number: int, title: str, start: float, end: float, confidence: str = "sure") -> Timed:
    return Timed(f"s{number}", number, f"Step {number}: {title}", start, end, confidence, "recorded")


def test_an_unsettled_chapter_stands_in_the_title_of_the_one_before() -> None:
    """Chapters have no gaps, so the stretch is of both; and where very many are unsettled the title keeps its line."""
    times = [timed(1, "Sew the darts", 3, 60), timed(2, "Make the loops", 60, 90, "look"), timed(3, "Hem", 90, 200)]
    assert chapters_at(times) == [
        Chapter(0, "Step 1: Sew the darts / Step 2: Make the loops"),
        Chapter(90, "Step 3: Hem"),
    ]
    many = [timed(1, "Sew the darts", 3, 60)] + [timed(n, "Make the loops", 60 * n, 61, "look") for n in range(2, 9)]
    (joint,) = chapters_at(many)
    assert joint.title.startswith("Step 1: Sew the darts / ")
    assert joint.title.endswith(" more")
    assert len(joint.title) <= 100


def test_a_recorded_chapter_that_would_be_too_short_goes_with_the_one_before() -> None:
    times = [timed(1, "Sew the darts", 0, 60), timed(2, "Press", 60, 65), timed(3, "Hem", 65, 200)]
    assert [one.title for one in chapters_at(times)] == ["Step 1: Sew the darts", "Step 2: Press / Step 3: Hem"]
