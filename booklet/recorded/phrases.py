"""Cues -> stretches of speech: as a rule a sentence or a cue, with how likely something new begins there."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.spoken import spoken, words_of

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
# How likely is a stretch to begin a step, by what stands there? Our choice, tuned on the tests' speech.
OPENS = {"within": 0.002, "sentence": 0.02, "weak": 0.06, "pause": 0.05, "after pause": 0.35, "strong": 0.35}


class Phrase(NamedTuple):
    """start, end in seconds; cue: its index among the cues; opens: a key of OPENS; aside: it speaks of another time."""

    start: float
    end: float
    cue: int
    words: tuple[Word, ...]
    opens: str
    aside: bool


def phrases_of(cues: Sequence[Cue]) -> list[Phrase]:
    found: list[Phrase] = []
    silent_since, stopped, aside = 0.0, True, False
    for index, cue in enumerate(cues):
        gap = cue.start - silent_since if index else LONG_PAUSE
        for start, end, text in _parts(cue):
            words = tuple(words_of(text))
            if not words:
                continue
            opens = _opens(text, gap, stopped)
            # An aside goes on where its sentence does, in the next caption.
            own = _is_aside(text)
            found.append(Phrase(start, end, index, words, opens, own or (aside and opens == "within")))
            aside = own
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
    if _opening("strong").search(starts) or re.match(r"(?:\w+ ){0,4}step (?:number )?\w+ ", starts):
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
    return re.compile(rf"(?:[\w']+ ){{0,2}}(?:{words}) " if how == "strong" else rf"(?:{words}) ")


def _is_aside(text: str) -> bool:
    return bool(_aside().search(" ".join(words.word for words in words_of(text))))


@cache
def _aside() -> re.Pattern[str]:
    words = "|".join(re.escape(words.lower()) for words in spoken()["asides"])
    return re.compile(rf"\b(?:{words})\b")
