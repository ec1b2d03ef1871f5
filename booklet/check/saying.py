"""What a text says of the measures of its work, found by the verbs and phrases of craft/sayings.yaml alone.

Better a slip missed than a true sentence blamed: a measure counts only in a phrase of its verb, in one sentence.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from booklet.craft.load import table
from booklet.length import Length
from booklet.length import find as measures_in
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

# A full stop and a capital, or a blank line, ends a sentence. What follows an abbreviation is rarely a capital.
_SENTENCE_END = re.compile(r"(?<=[.!?])[\"”’)]*\s+(?=[A-Z*{“\"(])|\n\s*\n")
_OTHER_SYSTEM = re.compile(r"\s*[(/]\s*\Z")
_CLOSED = re.compile(r"\s*\)")
_WORD = re.compile(r"[\w’'-]+")
_FILLERS = frozenset({"about", "exactly", "just", "only", "scant", "generous", "full", "a"})
# What may close the last word of a phrase.
_ENDS = ",;:.)”*!?"
# How many fillers may stand together?
_MOST_FILLERS = 2
# How many words may stand for the … of a phrase?
_MOST_BETWEEN = 4


class Said(NamedTuple):
    """A measure that a phrase gives to a verb.

    verb: a row of craft/sayings.yaml; phrase: the words round the measure; measure: as written, from `start` on.
    """

    verb: str
    length: Length
    phrase: str
    measure: str
    start: int


class _Phrase(NamedTuple):
    """The words before the measure, and those after it; … stands for a few."""

    lead: tuple[str, ...]
    tail: tuple[str, ...]


@cache
def _verbs() -> dict[str, str]:
    """Every form of every verb."""
    return {form: name for name, row in table("sayings")["verbs"].items() for form in row["forms"]}


@cache
def _phrases(verb: str) -> tuple[_Phrase, ...]:
    halves = (said.split("{}") for said in table("sayings")["verbs"][verb]["said"])
    return tuple(_Phrase(tuple(lead.split()), tuple(tail.split())) for lead, tail in halves)


@cache
def _never(where: str) -> frozenset[str]:
    return frozenset(table("sayings")[f"never {where}"])


@lru_cache(maxsize=16384)
def said_in(text: str) -> tuple[Said, ...]:
    """Every measure of a text that one of the verbs governs."""
    measures = measures_in(text)
    return tuple(_said(text, measures)) if measures else ()


def _said(text: str, measures: Sequence[tuple[int, int, Length]]) -> Iterator[Said]:
    ends = [(match.start(), match.end()) for match in _SENTENCE_END.finditer(text)]
    starts = [0, *(end for _, end in ends)]
    for index, (first, last, length) in enumerate(measures):
        if index and _paired(text, measures[index - 1], measures[index]):
            continue
        sentence = bisect_right(starts, first) - 1
        end = ends[sentence][0] if sentence < len(ends) else len(text)
        after = last
        if index + 1 < len(measures) and _paired(text, measures[index], measures[index + 1]):
            after = measures[index + 1][1]
            closed = _CLOSED.match(text, after)
            after = closed.end() if closed else after
        found = _governing(text[starts[sentence] : first], text[after:end])
        if found is not None:
            verb, lead, tail = found
            phrase = " ".join([*lead, text[first:last], *tail])
            yield Said(verb, length, phrase, text[first:last], first)


def _paired(text: str, one: tuple[int, int, Length], two: tuple[int, int, Length]) -> bool:
    """Whether the second is the first in the other system, as in `5/8 in (1.5 cm)`."""
    return one[2].metric != two[2].metric and _OTHER_SYSTEM.match(text[one[1] : two[0]]) is not None


def _governing(before: str, after: str) -> tuple[str, Sequence[str], Sequence[str]] | None:
    """The nearest verb before the measure (else the first after it) that has it in a phrase; and the phrase's words."""
    if after[:1] == "-":
        return None
    words_before, words_after = before.split(), after.split()
    if after[:1] not in ("", " ", "\n"):  # a stop or a comma: the phrase ends with the measure
        words_after = ["", *words_after]
    plain = [word.lstrip('(“"*') for word in before.lower().split()]
    nearest, following = plain[-1 - _MOST_FILLERS :], {words_after[0].lower().rstrip(_ENDS), "…"} if words_after else ()
    for verb in _candidates(before, after):
        for phrase in _phrases(verb):
            # A look at one word on each side of the measure rules most phrases out.
            if (phrase.lead and phrase.lead[-1] not in nearest) or (phrase.tail and phrase.tail[0] not in following):
                continue
            lead = _lead(phrase.lead, plain)
            tail = None if lead is None else _tail(phrase.tail, words_after)
            if lead is not None and tail is not None:
                words = [word.strip("“”\"'()*,;:.") for word in words_after[:tail]]
                return verb, [word.lstrip('(“"*') for word in words_before[len(words_before) - lead :]], words
    return None


def _candidates(before: str, after: str) -> Iterator[str]:
    """The verbs that may govern, nearest first; one with another object between it and the measure does not."""
    verbs, ends = _verbs(), _never("with")
    for word in reversed(_WORD.findall(before.lower())):
        if word in verbs:
            yield verbs[word]
        if word in ends:
            return
    yield from (verbs[word] for word in _WORD.findall(after.lower()) if word in verbs)


def _lead(lead: tuple[str, ...], words: list[str]) -> int | None:
    """How many words before the measure belong to the phrase, fillers (`to about`) among them; None: it is not said.

    `words`: those before the measure, in small letters and without the signs that open something.
    """
    if not lead:
        return None if words and words[-1].strip('(“"*;:') in _never("before") else 0
    for fillers in range(_MOST_FILLERS + 1):
        cut = len(words) - fillers
        if fillers and (cut < 0 or words[cut] not in _FILLERS):
            return None
        if tuple(words[max(0, cut - len(lead)) : cut]) == lead:
            return len(lead) + fillers
    return None


def _tail(tail: tuple[str, ...], words: list[str]) -> int | None:
    """How many words after the measure belong to the phrase; None: it is not said."""
    if not tail:
        return None if words and words[0].lower().strip(",;:.)”*") in _never("after") else 0
    if tail[0] == "…":
        for skipped in range(min(_MOST_BETWEEN, len(words)) + 1):
            if skipped and words[skipped - 1][-1:] in ",;:.)":
                return None
            rest = _tail(tail[1:], words[skipped:])
            if rest is not None:
                return skipped + rest
        return None
    ends = _ENDS if len(tail) == 1 else ""
    if not words or words[0].lower().rstrip(ends) != tail[0]:
        return None
    return 1 if len(tail) == 1 else _more(_tail(tail[1:], words[1:]))


def _more(count: int | None) -> int | None:
    return None if count is None else count + 1
