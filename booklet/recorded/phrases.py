"""Cues -> stretches of speech: as a rule a sentence or a cue, with how likely something new begins there."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.spoken import spoken, steps_named, words_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.recorded.cues import Cue
    from booklet.recorded.spoken import Word

# A new sentence within a cue: after a stop, or where captions have none, with words that go on to the next thing.
_STOP = re.compile(
    r"(?<=[.!?…])\s+|"
    r"\s+(?=(?:okay so|ok so|okay step|alright|all right so|right then|next up|moving on|so next|that's that)\b)",
    re.IGNORECASE,
)
# Silence after which something new often begins, in seconds. Our choice.
PAUSE, LONG_PAUSE = 2.5, 8.0
# How many words does an aside last, as in `remember when we turned the collar`? Our choice, tuned likewise.
ASIDE_LASTS = 12
# How likely is a stretch to begin a step, by what stands there? Our choice, tuned on the tests' speech.
OPENS = {"within": 0.002, "sentence": 0.02, "weak": 0.06, "pause": 0.05, "after pause": 0.35, "strong": 0.35}


class Phrase(NamedTuple):
    """start, end in seconds; cue: its index among the cues; opens: a key of OPENS; aside: it speaks of another time,
    in its words from the first number in `apart` up to the second."""

    start: float
    end: float
    cue: int
    words: tuple[Word, ...]
    opens: str
    aside: bool
    apart: tuple[int, int] = (0, 0)


def phrases_of(cues: Sequence[Cue]) -> list[Phrase]:
    found: list[Phrase] = []
    silent_since, stopped, goes_on = 0.0, True, 0
    for index, cue in enumerate(cues):
        gap = cue.start - silent_since if index else LONG_PAUSE
        for start, end, text in _parts(cue):
            words = tuple(words_of(text))
            if not words:
                continue
            opens = _opens(text, gap, stopped)
            apart, goes_on = _apart(words, goes_on if opens == "within" else 0)
            found.append(Phrase(start, end, index, words, opens, apart[1] > apart[0], apart))
            stopped = text.rstrip()[-1:] in ".!?…"
            gap = 0.0
        silent_since = max(silent_since, cue.end)
    return found


def _parts(cue: Cue) -> Iterator[tuple[float, float, str]]:
    """The sentences of a cue, each as long as its share of the signs."""
    pieces = [piece for piece in _STOP.split(cue.text) if piece]
    whole = sum(map(len, pieces)) or 1
    at = cue.start
    for piece in pieces:
        lasts = (cue.end - cue.start) * len(piece) / whole
        yield round(at, 3), round(at + lasts, 3), piece
        at += lasts


def _opens(text: str, gap: float, stopped: bool) -> str:
    head = re.sub(r"[^\w' ]", "", text.lower().replace("’", "'"))
    starts = " ".join(head.split()[:9]) + " "
    if _opening("strong").search(starts) or _numbers_a_step(starts):
        return "strong"
    if gap >= LONG_PAUSE:
        return "after pause" if _opening("weak").match(starts) else "pause"
    if gap >= PAUSE:
        return "pause"
    if _opening("weak").match(starts):
        return "weak"
    return "sentence" if stopped else "within"


@cache
def _opening(how: str) -> re.Pattern[str]:
    """Strong ones may stand after a word or two, as in `okay so next`; weak ones begin."""
    words = "|".join(re.escape(words.lower()) for words in sorted(spoken()["openings"][how], key=len, reverse=True))
    return re.compile(rf"\b(?:[\w']+ ){{0,2}}(?:{words}) " if how == "strong" else rf"(?:{words}) ")


def _numbers_a_step(starts: str) -> bool:
    return any(True for _ in steps_named(words_of(" ".join(starts.split()[:7]))))


def _apart(words: Sequence[Word], goes_on: int) -> tuple[tuple[int, int], int]:
    """From which word to which it speaks of another time, and how many words of the next phrase still do.

    goes_on: how many of its first words do. Where captions have no stops, nothing but its length ends an aside.
    """
    spoken_words = " ".join(word.word for word in words)
    match = _aside().search(spoken_words)
    first = spoken_words.count(" ", 0, match.start()) if match is not None else len(words)
    if goes_on:
        first = 0
    last = max(goes_on, first + ASIDE_LASTS if match is not None else 0)
    return (first, min(last, len(words))) if last else (0, 0), max(0, last - len(words))


@cache
def _aside() -> re.Pattern[str]:
    words = "|".join(re.escape(words.lower()) for words in spoken()["asides"])
    return re.compile(rf"\b(?:{words})\b")
