"""Measures that are said otherwise than printed, or that look misheard."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.measures import among, slips
from booklet.check.words import listed
from booklet.recorded.against.places import phrase_line, warning
from booklet.recorded.against.told import Told, told_of
from booklet.recorded.cues import clock
from booklet.recorded.spoken import measures_in, spoken

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.finding import Finding
    from booklet.length import Length
    from booklet.model.pattern import Pattern
    from booklet.recorded.filmed import Filmed
    from booklet.recorded.spoken import Said, Word

# What is sewn is measured in less; cloth and people in more. In mm; our choice.
WIDEST = 305.0


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    if filmed.aligned is None:
        return
    all_told = list(told_of(pattern, filmed))
    taken = 0
    for at, told in enumerate(all_told):
        following = all_told[at + 1].phrase if at + 1 < len(all_told) else None
        # A measure may begin in one caption and end in the next.
        goes_on = following is not None and following.opens == "within"
        words = (*told.phrase.words, *(following.words if following is not None and goes_on else ()))
        own, before, taken = len(told.phrase.words), taken, 0
        for said in measures_in(words):
            if before <= said.first < own:
                taken = max(0, said.last + 1 - own)
                found = None if told.phrase.aside else _found(pattern, filmed, told, words, said)
                if found is not None:
                    yield found


def _found(pattern: Pattern, filmed: Filmed, told: Told, words: Sequence[Word], said: Said) -> Finding | None:
    if said.length in told.measures or among(said.length, told.measures, pattern.house):
        return None
    own = sorted(told.own)
    meant = [length for length in slips(said.length) if any(length == one for one in told.own)]
    written = " ".join(word.word for word in words[said.first : said.last + 1])
    where = f"At {clock(told.phrase.start)}, in {told.take.called},"
    place = phrase_line(filmed, told.phrase)
    if meant:
        says = f"{where} the captions have “{written}”, and {meant[0]} is printed. It looks misheard."
        mend = "Listen there, and correct the captions."
        return warning("caption-misheard", filmed, told.take, place, says, mend, told.phrase.start)
    if said.bare or not told.own or float(said.length.millimetres) > WIDEST or _loosely(words, said):
        return None
    if not told.works:
        return None
    says = f"{where} “{written}” is said, and the step has {_listed(own)}."
    mend = "Listen there. Correct the captions if they are wrong, or show the printed measure on the screen."
    return warning("measure-said-otherwise", filmed, told.take, place, says, mend, told.phrase.start)


def _listed(lengths: list[Length]) -> str:
    return listed([str(length) for length in lengths[:6]])


def _loosely(words: Sequence[Word], said: Said) -> bool:
    near = [word.word for word in words[max(0, said.first - 2) : said.first]]
    after = " ".join(word.word for word in words[said.last + 1 : said.last + 3])
    return any(word in spoken()["loosely"] for word in near) or after == "or so"
