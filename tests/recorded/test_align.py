"""Which step is being sewn when, found in speech made up from other patterns: dropped, misheard, reordered, chatter."""

from __future__ import annotations

import time
import tracemalloc

import pytest

from booklet.recorded.chapters import align
from booklet.recorded.cues import Cue
from booklet.recorded.takes import candidates
from tests.recorded.scores import DEMOS, OTHERS, Score, long_film, pattern_of, run
from tests.recorded.speech import Noise

HERE = "tarn-shirt"


@pytest.mark.parametrize("stops", [True, False], ids=["with stops", "without"])
def test_most_chapters_are_near_and_none_is_sure_and_wrong(stops: bool) -> None:
    """The goal of the bench, on a part of its patterns: 95 in 100 within 10 s. Small numbers vary by a few."""
    total = Score(0, 0, 0, (), 0, 0, 0)
    for folder in (DEMOS[1], *(other for other in OTHERS if other.name in (HERE, "copper-jacket"))):
        total += run(folder, 1, Noise(stops=stops))
    assert total.near >= 0.93 * total.shown
    assert total.wrong == ()
    assert total.sure >= 0.5 * total.shown


def test_steps_that_are_left_out_or_change_places_are_named() -> None:
    total = run(DEMOS[2], 2, Noise(missing=2, swapped=2))
    assert total.named >= 0.8 * total.missing > 0
    assert total.moved == total.swapped > 0


def test_silent_or_foreign_speech_gives_nothing_sure() -> None:
    takes = candidates(pattern_of(DEMOS[0]), "B")
    lines = ("das ist ein schöner Tag", "guten Morgen", "wir gehen spazieren", "es regnet", "blah blah")
    cues = [Cue(10.0 * at, 10.0 * at + 4, lines[at % len(lines)], at + 1) for at in range(200)]
    assert [one for one in align(cues, takes).found if one.sure] == []
    assert align([], takes).found == []


def test_the_same_speech_gives_the_same_times() -> None:
    takes = candidates(pattern_of(DEMOS[1]), "A")
    cues, _ = long_film(takes, 400)
    assert align(cues, takes).found == align(cues, takes).found


def test_memory_grows_with_the_cues_and_no_faster() -> None:
    takes = candidates(pattern_of(DEMOS[0]), "C")
    peaks = []
    for count in (400, 800, 1600):
        cues, _ = long_film(takes, count)
        tracemalloc.start()
        align(cues, takes)
        peaks.append(tracemalloc.get_traced_memory()[1])
        tracemalloc.stop()
    assert (peaks[2] - peaks[1]) < 2.6 * (peaks[1] - peaks[0])


def test_three_hours_and_two_hundred_steps_take_less_than_three_seconds(many_steps: list[object]) -> None:
    """Of the process's own time, so that a busy machine does not fail it."""
    from booklet.recorded.takes import Candidate

    takes = [take for take in many_steps if isinstance(take, Candidate)]
    cues, _ = long_film(takes, 3000)
    assert (len(takes), len(cues)) == (200, 3000)
    begin = time.process_time()
    align(cues, takes)
    assert time.process_time() - begin < 3
