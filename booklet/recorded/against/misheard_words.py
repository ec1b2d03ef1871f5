"""Words that look misheard: one of two that stand side by side in print, beside one that only sounds like the other."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from booklet.recorded.against.places import phrase_line, warning
from booklet.recorded.against.told import told_of
from booklet.recorded.cues import clock
from booklet.recorded.misheard import ALIKE, SHORTEST, likeness
from booklet.recorded.spoken import counts, fillers, stem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.recorded.filmed import Filmed
    from booklet.recorded.takes import Candidate


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    if filmed.aligned is None or filmed.aligned.listener is None:
        return
    known = filmed.aligned.listener.known.words
    done: set[tuple[str, str]] = set()
    for told in told_of(pattern, filmed):
        for one, two in pairwise(told.phrase.words):
            said = (stem(one.word), stem(two.word))
            if any(word.word in fillers() or counts(word.word) for word in (one, two)) or said in done:
                continue
            printed = _printed(said, told.take, known)
            if printed is None:
                continue
            done.add(said)
            says = (
                f"At {clock(told.phrase.start)}, in {told.take.called}, the captions have “{one.word} {two.word}”, "
                f"and the booklet has “{_as_printed(printed, pattern, told.take)}”. It looks misheard."
            )
            mend = "Listen there, and correct the captions."
            yield warning(
                "caption-misheard", filmed, told.take, phrase_line(filmed, told.phrase), says, mend, told.phrase.start
            )


def _printed(said: tuple[str, str], take: Candidate, known: frozenset[str]) -> tuple[str, str] | None:
    """The printed pair of which one word is said and the other only sounds so; a word that any step has is none."""
    if said in take.phrases:
        return None
    for pair in take.phrases:
        for same, other in ((0, 1), (1, 0)):
            heard, right = said[other], pair[other]
            if pair[same] != said[same] or heard in known or min(len(heard), len(right)) < SHORTEST:
                continue
            if not (heard.startswith(right) or right.startswith(heard)) and likeness(heard, right) >= ALIKE:
                return pair
    return None


def _as_printed(pair: tuple[str, str], pattern: Pattern, take: Candidate) -> str:
    """With the endings that the booklet's words have."""
    assert take.step is not None
    texts = [
        take.title,
        *(text.value for text in (take.step.text, take.step.tip, take.step.caution) if text is not None),
    ]
    texts += [words.value for one in take.step.film for words in (one.say, one.show) if words is not None]
    for text in texts:
        words = ["".join(sign for sign in word if sign.isalnum() or sign in "-'’") for word in text.split()]
        for one, two in pairwise(words):
            if (stem(one.lower()), stem(two.lower())) == pair:
                return f"{one} {two}".lower()
    return " ".join(pair)
