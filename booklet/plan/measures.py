"""Measures in text: found where they stand, paired with the other system, and set as spans."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from booklet.length import BadLength, House, Length, find, parse, spell
from booklet.plan.prose import Measure, Span

# What joins two ways of writing one measure, as in `5/8 in (1.5 cm)`, `5/8 in [1.5 cm]` and `5/8 in / 1.5 cm`?
_OPENS = re.compile(r"\s*(?P<sign>[(\[/])\s*")
_CLOSES = {"(": re.compile(r"\s*\)"), "[": re.compile(r"\s*\]"), "/": re.compile("")}

# `2 to 3 in`: the first number has no unit of its own and takes that of the second.
_RANGE = re.compile(
    r"(?<![\w./⁄])(?P<number>[0-9¼½¾⅛⅜⅝⅞⅓⅔][0-9 ./⁄¼½¾⅛⅜⅝⅞⅓⅔]{0,12}?)(?P<joint>\s+(?:to|or)\s+|\s*[–-]\s*)\Z"
)


class Found(NamedTuple):
    start: int
    end: int
    measure: Measure


def pair(length: Length, house: House) -> Measure:
    """A measure as written, with the same in the other system; a length that rounds to nothing there has none."""
    other = house.other(length)
    return Measure(spell(length), spell(other) if other else None)


def text_of(measure: Measure) -> str:
    """With a plain slash, for text files: `5/8 in (1.5 cm)`."""
    return measure.first.plain + (f" ({measure.other.plain})" if measure.other else "")


def measure_span(measure: Measure) -> Span:
    return Span("measure", text_of(measure), measure)


def measured_spans(text: str, house: House, kind: str = "text") -> list[Span]:
    """The text with its measures as spans of their own; the rest is of `kind`."""
    spans: list[Span] = []
    done = 0
    for found in _found(text, house):
        if found.start > done:
            spans.append(Span(kind, text[done : found.start]))  # type: ignore[arg-type]
        spans.append(measure_span(found.measure))
        done = found.end
    if done < len(text):
        spans.append(Span(kind, text[done:]))  # type: ignore[arg-type]
    return spans


def _found(text: str, house: House) -> Iterator[Found]:
    lengths = find(text)
    done = 0
    at = 0
    while at < len(lengths):
        start, end, length = lengths[at]
        first = _range_start(text[done:start], length)
        if first is not None:
            offset, stop, lower = first
            yield Found(done + offset, done + stop, pair(lower, house))
        measure = pair(length, house)
        written = _other_written(text, end, length, lengths[at + 1 :][:1])
        if written is not None:
            end, measure = written[0], Measure(spell(length), spell(written[1]))
            at += 1
        yield Found(start, end, measure)
        done = end
        at += 1


def _range_start(before: str, length: Length) -> tuple[int, int, Length] | None:
    match = _RANGE.search(before)
    if not match:
        return None
    try:
        lower = parse(f"{match['number'].strip()} {length.unit}")
    except BadLength:
        return None
    return (match.start(), match.end("number"), lower) if lower < length else None


def _other_written(
    text: str, end: int, length: Length, following: Sequence[tuple[int, int, Length]]
) -> tuple[int, Length] | None:
    """Where the writer gave both systems: the end of the second, and the second."""
    if not following:
        return None
    start, stop, other = following[0]
    opens = _OPENS.match(text, end)
    if other.metric == length.metric or not opens or opens.end() != start:
        return None
    closes = _CLOSES[opens["sign"]].match(text, stop)
    return (closes.end(), other) if closes else None
