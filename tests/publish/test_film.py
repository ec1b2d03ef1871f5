"""The film's chapters, read back by others: a WebVTT library, and the rules of a video's description."""

from __future__ import annotations

import re
from html import unescape
from itertools import pairwise
from pathlib import Path

import pytest
import webvtt

from booklet.draw.cards import wide
from booklet.plan.plan import Chapter, FilmPlan, PlanView
from booklet.publish.chapters.description import description
from booklet.publish.chapters.span import spans
from booklet.publish.chapters.webvtt import webvtt as webvtt_of
from booklet.publish.outputs import cards, film, shots
from tests.golden import check_golden
from tests.plan import small

VIEW = PlanView("A", "Vest", (), None)
HOSTILE = 'Needle --> <b>up</b> & {{ x }} "quoted", done'


def plan(*chapters: Chapter, seconds: int = 60) -> FilmPlan:
    return FilmPlan(VIEW, list(chapters), [], seconds)


def demo_files(name: str) -> dict[str, str]:
    return {path: made.decode() for path, made in film.files(small.demo(name)).items()}


def seconds(stamp: str) -> float:
    hours, minutes, rest = stamp.split(":")
    return int(hours) * 3600 + int(minutes) * 60 + float(rest)


@pytest.mark.parametrize("name", small.DEMOS)
def test_chapters_are_webvtt(name: str) -> None:
    """Read by webvtt-py: a cue a chapter, in consecutive intervals that don't overlap, to the film's end.

    Source: W3C, WebVTT (w3c/webvtt, index.bs): chapter cues mark up the timeline in consecutive intervals.
    """
    made = demo_files(name)["film/chapters.vtt"]
    planned = small.demo(name).plan.films
    assert planned is not None
    cues = webvtt.from_string(made).captions
    assert [unescape(cue.text) for cue in cues] == [chapter.title for chapter in planned.chapters]
    assert [seconds(cue.start) for cue in cues] == [chapter.start for chapter in planned.chapters]
    assert [cue.end for cue in cues[:-1]] == [cue.start for cue in cues[1:]]
    assert seconds(cues[-1].end) == planned.seconds


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_webvtt_keeps_the_rules_of_its_syntax(name: str) -> None:
    """The first line; `hh:mm:ss.ttt` with a full stop, blanks round the arrow; a blank line ends a cue.

    Source: W3C, WebVTT (w3c/webvtt, index.bs), syntax.
    """
    made = demo_files(name)["film/chapters.vtt"]
    first, *blocks = made.removesuffix("\n").split("\n\n")
    assert first == "WEBVTT"
    assert blocks[0].startswith("NOTE ")
    for block in blocks[1:]:
        time, title = block.split("\n")
        assert re.fullmatch(r"\d\d:[0-5]\d:[0-5]\d\.\d{3} --> \d\d:[0-5]\d:[0-5]\d\.\d{3}", time)
        start, end = time.split(" --> ")
        assert start < end
        assert title
        assert "-->" not in title


def test_a_title_is_text_in_every_file() -> None:
    """No tag, no arrow, no break; a reader sees the writer's signs again."""
    made = webvtt_of(spans(plan(Chapter(0, f"{HOSTILE}\n\nNOTE x"))), "Vest\n\n--> x", "planned times")
    (cue,) = webvtt.from_string(made).captions
    assert unescape(cue.text) == f"{HOSTILE} NOTE x"
    assert made.count("-->") == 1
    assert "<" not in made


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_description_keeps_the_rules_of_its_chapters(name: str) -> None:
    """The first at 0:00, three or more, ascending, each of 10 s or more.

    Source: support.vevo.com/hc/en-us/articles/6945557784347, as read; the platform's own page was not.
    """
    lines = demo_files(name)["film/chapters.txt"].splitlines()
    found = [re.fullmatch(r"(?:(\d+):)?(\d+):(\d\d) (\S.*)", line) for line in lines]
    assert all(found)
    times = [int(one[1] or 0) * 3600 + int(one[2]) * 60 + int(one[3]) for one in found if one]
    assert lines[0].startswith("0:00 ")
    assert len(times) >= 3
    assert all(later - time >= 10 for time, later in pairwise(times))
    assert not set("<>") & set("".join(lines))


def test_times_over_an_hour_have_the_hour() -> None:
    """And those before it don't, so that the first is 0:00."""
    made = description(spans(plan(Chapter(0, "One"), Chapter(754, "Two"), Chapter(3725, "Three"), seconds=4000)))
    assert made == "0:00 One\n12:34 Two\n1:02:05 Three\n"


def test_a_number_is_the_same_step_in_all_files() -> None:
    """Chapters, shots and list: step 15 of the tunic is the shoulders everywhere."""
    made = demo_files("saltmarsh-tunic")
    assert re.search(r"^[0-9:]+ Step 15: Sew the shoulders$", made["film/chapters.txt"], re.MULTILINE)
    assert "\nStep 15: Sew the shoulders\n" in made["film/chapters.vtt"]
    assert ",15,Sew the shoulders," in shots.files(small.demo("saltmarsh-tunic"))["film/shots.csv"].decode()
    (step,) = [step for step in small.demo("saltmarsh-tunic").plan.steps if step.number == 15]
    assert step.title == "Sew the shoulders"


def test_a_film_of_nothing_is_a_file_of_nothing(tmp_path: Path) -> None:
    """No chapter, and still WebVTT."""
    made = webvtt_of(spans(plan(seconds=0)), "Vest", "planned times")
    assert webvtt.from_string(made).captions == []
    assert description(spans(plan(seconds=0))) == ""


def test_the_draft_of_a_description_has_how_much_of_what() -> None:
    """Counts and lengths as in the booklet's table, each with the writer's note; nothing where none is given."""
    lines = demo_files("pebble-joggers")["film/description.txt"].splitlines()
    assert "Elastic, 3 cm (1 1/4 in): 0.7 m (7/8 yd). Soft, for waists. The chart has the cut lengths." in lines
    assert "Thread. Polyester, three or four cones for the overlocker and a reel for the machine." in lines
    lines = demo_files("saltmarsh-tunic")["film/description.txt"].splitlines()
    assert "Seam ripper" in lines  # A tool a line: some have a comma in them.
    assert "Button, 1/2 in (1.3 cm): 3. Ball or shank buttons sit best in the loops." in lines


def test_the_draft_of_a_description_says_which_times_are_only_planned() -> None:
    planned, recorded = (demo_files(name)["film/description.txt"] for name in ("lantern-tote", "saltmarsh-tunic"))
    assert "\nChapters (planned times, not yet those of the film)\n0:00 Welcome\n" in planned
    assert "\nChapters\n0:00 Welcome\n" in recorded


def test_the_draft_of_a_description_names_the_steps_that_a_viewer_will_not_see() -> None:
    """Of a film that is recorded; a step that may be left out is not missed."""
    head = "\nIn the booklet and not in the film\n"
    _, _, after = demo_files("saltmarsh-tunic")["film/description.txt"].partition(head)
    assert after.startswith("Step 42: Finish the armholes\n\n")
    assert head not in demo_files("lantern-tote")["film/description.txt"]


def test_cards_are_called_by_the_numbers_of_the_steps_and_of_the_shot_list() -> None:
    """What a take puts on the screen has a card, each note its own; a chart has none."""
    made = {name: [line.words for line in card.lines] for name, card in cards.cards(small.demo("saltmarsh-tunic"))}
    assert made["step-15"] == ["15", "Sew the shoulders"]
    assert made["step-15-measures"] == [
        "15",
        "⅜\u00a0in\u00a0(1\u00a0cm)",
        "⅛\u00a0in\u00a0(3\u00a0mm)",
        "¼\u00a0in\u00a0(6\u00a0mm)",
    ]
    assert made["take-33"] == ["Trying on before the sleeves"]
    assert made["take-21-note"] == ["15", "First row ⅜\u00a0in\u00a0(1\u00a0cm)"]
    assert made["take-43-note-2"] == ["45", "Second turn ¾\u00a0in\u00a0(1.9\u00a0cm)"]
    widths = [line for line in made["take-02-note-1"] if "wide" in line]
    assert (
        widths[-1]
        == "1⅝\u00a0yd\u00a0(1.5\u00a0m) to 2¼\u00a0yd\u00a0(2.1\u00a0m), by size, 60\u00a0in\u00a0(150\u00a0cm) wide"
    )
    assert not [name for name in made if name.startswith("take-03-")]


@pytest.mark.parametrize("name", small.DEMOS)
def test_no_words_run_out_of_their_card(name: str) -> None:
    for called, card in cards.cards(small.demo(name)):
        left, top, right, bottom = card.panel
        assert 0 < left < right < 1920, called
        assert 0 < top < bottom < 1080, called
        for line in card.lines:
            assert left < line.x < line.x + wide(line.words, line.size, line.heavy) < right, called


@pytest.mark.parametrize("name", small.DEMOS)
def test_film_files_are_as_they_were(name: str) -> None:
    """Golden outputs: a change in them is read before it is committed. Every form of the chapters of one demo."""
    for path, made in film.files(small.demo(name)).items():
        if path.endswith((".txt", ".vtt", ".csv")) or name == "pebble-joggers":
            check_golden(f"{name}/{path}", made)
