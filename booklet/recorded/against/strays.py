"""What is done in the film and is in no step: talk of work that tells of none, and markers that name none."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.against.places import line_of, phrase_line, warning
from booklet.recorded.chapters import TELLS
from booklet.recorded.cues import clock
from booklet.recorded.spoken import counts, fillers, spoken, stem

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.recorded.chapters import Aligned
    from booklet.recorded.filmed import Filmed
    from booklet.recorded.phrases import Phrase

# Work of a step takes longer to show; talk in passing is shorter. In seconds; our choice.
SHORTEST = 25.0
# How many verbs of work, and how often a thing that no step knows?
VERBS, NAMED = 2, 3


class _Stretch(NamedTuple):
    phrases: Sequence[Phrase]
    end: float


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    for marker in filmed.strangers:
        says = f"The marker “{marker.name[:60]}”, at {clock(marker.start)}, names no step of view {filmed.view}."
        mend = "Give it the step's number or title, or leave it, where what it marks belongs to no step."
        yield warning("filmed-in-no-step", filmed, None, line_of(filmed, marker.line), says, mend, marker.start)
    aligned = filmed.aligned
    if aligned is None or aligned.listener is None:
        return
    known = aligned.listener.known.words
    for stretch in _stretches(aligned):
        about = _of_work(stretch, known)
        if about is None:
            continue
        start = stretch.phrases[0].start
        words = _shortened(" ".join(word.word for phrase in stretch.phrases[:3] for word in phrase.words))
        thing = f", with “{about}” in it," if about else ""
        times = f"From {clock(start)} to {clock(stretch.end)}"
        says = f"{times} the film shows work{thing} that is in no step: “{words}”."
        mend = "Say in the film that the booklet does not have it, or write a step for it."
        yield warning("filmed-in-no-step", filmed, None, phrase_line(filmed, stretch.phrases[0]), says, mend, start)


def _shortened(words: str) -> str:
    return words if len(words) <= 80 else f"{words[:80].rpartition(' ')[0]} …"


def _stretches(aligned: Aligned) -> Iterator[_Stretch]:
    """Phrases one after the other that tell of no take, long enough to be work."""
    phrases = aligned.phrases
    begins: int | None = None
    for at in range(len(phrases) + 1):
        tells = at == len(phrases) or aligned.tells[at] >= TELLS
        if not tells and begins is None:
            begins = at
        if tells and begins is not None:
            end = phrases[at].start if at < len(phrases) else phrases[-1].end
            if end - phrases[begins].start >= SHORTEST:
                # It begins with a sentence, not with the end of one that told of a step.
                first = next((row for row in range(begins, at) if phrases[row].opens != "within"), begins)
                yield _Stretch(phrases[first:at], end)
            begins = None


def _of_work(stretch: _Stretch, known: frozenset[str]) -> str | None:
    """The thing that it works on, "" where it only says that it is none of the booklet; None where it is idle talk."""
    said = [phrase for phrase in stretch.phrases if not phrase.aside]
    stems = [stem(word.word) for phrase in said for word in phrase.words if word.word not in fillers()]
    doing = {word for word in stems if word in _doing()}
    things = Counter(word.word for phrase in said for word in phrase.words
                     if word.word not in fillers() and stem(word.word) not in known and len(word.word) > 3
                     and not counts(word.word))  # fmt: skip
    extra = any(_extra().search(" ".join(word.word for word in phrase.words)) for phrase in stretch.phrases)
    thing, often = min(things.items(), key=lambda each: (-each[1], each[0]), default=("", 0))
    if len(doing) >= VERBS and (extra or often >= NAMED):
        return thing if often > 1 else ""
    return None


@cache
def _doing() -> frozenset[str]:
    return frozenset(stem(word) for word in spoken()["doing"])


@cache
def _extra() -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, spoken()['extra']))})\b")
