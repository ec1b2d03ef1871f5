"""What a text says of the measures of its work, found by the verbs and phrases of craft/sayings.yaml alone.

Better a slip missed than a true sentence blamed: a measure counts only in a phrase of its verb, in one sentence.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING, NamedTuple

from booklet.craft.load import table
from booklet.length import Length
from booklet.length import find as measures_in

if TYPE_CHECKING:
    from collections.abc import Iterator

# Stand for a measure, and for one in brackets after it, while sentences are looked at.
_MEASURE, _OTHER = "\x01", "\x02"
_SENTENCE_END = re.compile(r"(?<=[.!?])[\"”’)]*\s+(?=[A-Z*{“\"(])|\n\s*\n")
_BRACKET = re.compile(r"\s*[(/]\s*\Z")
_FILLER = r"(?:(?:about|exactly|just|only|scant|generous|full|a)\s+){0,2}"


class Said(NamedTuple):
    """A measure that a phrase gives to a verb.

    verb: a row of craft/sayings.yaml; phrase: the words round the measure; measure: as written, from `start` on.
    """

    verb: str
    length: Length
    phrase: str
    measure: str
    start: int


class _Verb(NamedTuple):
    name: str
    phrases: tuple[tuple[re.Pattern[str], re.Pattern[str]], ...]


@cache
def _verbs() -> tuple[re.Pattern[str], dict[str, _Verb]]:
    forms: dict[str, _Verb] = {}
    for name, row in table("sayings")["verbs"].items():
        verb = _Verb(name, tuple(_phrase(said) for said in row["said"]))
        forms.update(dict.fromkeys(row["forms"], verb))
    ordered = sorted(forms, key=len, reverse=True)
    return re.compile(rf"\b(?:{'|'.join(map(re.escape, ordered))})\b", re.IGNORECASE), forms


def _phrase(said: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """What stands before the measure, to its end, and what stands after it, from its beginning."""
    before, after = (_words(part) for part in said.split("{}"))
    if not after:
        after = rf"(?!\s*(?:{'|'.join(table('sayings')['never after'])})\b)"
    return re.compile(rf"(?:\A|\W){before}\s+{_FILLER}\Z" if before else "", re.IGNORECASE), re.compile(
        rf"\s+{after}(?!\w)" if not after.startswith("(?!") else after, re.IGNORECASE
    )


def _words(part: str) -> str:
    words = [r"(?:[\w’'-]+\s+){0,4}?" if word == "…" else re.escape(word) + r"\s+" for word in part.split()]
    return "".join(words).removesuffix(r"\s+")


@lru_cache(maxsize=16384)
def said_in(text: str) -> tuple[Said, ...]:
    """Every measure of a text that one of the verbs governs."""
    if not any(sign.isdigit() or sign in "½¼¾⅛⅜⅝⅞⅓⅔" for sign in text):
        return ()
    measures = measures_in(text)
    return tuple(_said(text, measures)) if measures else ()


def _said(text: str, measures: list[tuple[int, int, Length]]) -> Iterator[Said]:
    masked, places = _masked(text, measures)
    pattern, forms = _verbs()
    start = 0
    for sentence in [*_SENTENCE_END.finditer(masked), None]:
        end = sentence.start() if sentence else len(masked)
        verbs = [(match.start(), forms[match.group().lower()]) for match in pattern.finditer(masked, start, end)]
        for at in range(start, end) if verbs else ():
            if masked[at] == _MEASURE:
                first, last, length = measures[places[at]]
                found = _governing(masked, at, start, end, verbs)
                if found is not None:
                    verb, before, after = found
                    phrase = " ".join(f"{before}{text[first:last]}{after}".split())
                    yield Said(verb, length, phrase, text[first:last], first)
        start = sentence.end() if sentence else end


def _masked(text: str, measures: list[tuple[int, int, Length]]) -> tuple[str, dict[int, int]]:
    """The text with each measure as one sign, and which measure stands at which sign."""
    parts: list[str] = []
    places: dict[int, int] = {}
    done = length = 0
    for index, (start, end, measure) in enumerate(measures):
        between = text[done:start]
        paired = index > 0 and _BRACKET.search(between) and measures[index - 1][2].metric != measure.metric
        sign = _OTHER if paired and not between.strip(" (/\n") else _MEASURE
        parts += [between, sign]
        length += len(between)
        if sign == _MEASURE:
            places[length] = index
        length += 1
        done = end
    parts.append(text[done:])
    return "".join(parts), places


def _governing(
    masked: str, at: int, start: int, end: int, verbs: list[tuple[int, _Verb]]
) -> tuple[str, str, str] | None:
    """The nearest verb before the measure (else the first after it) that has it in a phrase; and the phrase's words."""
    before, after = masked[start:at], masked[at + 1 : end]
    bracket = re.match(rf"\s*[(/]\s*{_OTHER}\s*\)?", after)
    after = after[bracket.end() :] if bracket else after
    ordered = [verb for place, verb in reversed(verbs) if place < at] + [verb for place, verb in verbs if place > at]
    for verb in dict.fromkeys(ordered):
        for lead, tail in verb.phrases:
            led = lead.search(before) if lead.pattern else re.match("", before)
            followed = tail.match(after)
            if led and followed:
                words = led.group() if lead.pattern else ""
                return verb.name, words.lstrip(" ,;(\n") if not words[:1].isalnum() else words, followed.group()
    return None
