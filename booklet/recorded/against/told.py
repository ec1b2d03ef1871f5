"""Each stretch of speech beside the take in which it is said, and what that take has."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from booklet.length import Length, find
from booklet.model.pattern import Measured
from booklet.recorded.spoken import spoken, stem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Pattern, Step
    from booklet.recorded.filmed import Filmed
    from booklet.recorded.phrases import Phrase
    from booklet.recorded.takes import Candidate


class Told(NamedTuple):
    """measures: those that may be said there without surprise; own: those of the step itself; works: a verb of work is
    said; near: the takes shown before and after, too."""

    phrase: Phrase
    take: Candidate
    measures: set[Length]
    own: set[Length]
    works: bool
    near: tuple[Candidate, ...]


def told_of(pattern: Pattern, filmed: Filmed) -> Iterator[Told]:
    """The phrases in steps, by the chapters' times (which a person may have corrected)."""
    assert filmed.aligned is not None
    chapters = filmed.chapters
    own = [_own(pattern, filmed.takes[chapter.take].step) for chapter in chapters]
    at = -1
    for phrase in filmed.aligned.phrases:
        while at + 1 < len(chapters) and chapters[at + 1].start <= phrase.start:
            at += 1
        if at < 0 or filmed.takes[chapters[at].take].step is None:
            continue
        around = [index for index in (at - 1, at + 1) if 0 <= index < len(chapters)]
        known = own[at].union(*(own[index] for index in around), {pattern.allowance})
        near = tuple(filmed.takes[chapters[index].take] for index in around)
        works = any(stem(word.word) in _doing() for word in phrase.words)
        yield Told(phrase, filmed.takes[chapters[at].take], known, own[at], works, near)


def _own(pattern: Pattern, step: Step | None) -> set[Length]:
    """Every measure of a step: of its words, its work, and the allowances of the edges that it sews."""
    if step is None:
        return set()
    found: set[Length] = set()
    says = [take.say for take in step.film]
    for text in (step.text, step.tip, step.caution, *says):
        found |= {length for _, _, length in find(text.value)} if text is not None else set()
    for entry in step.work:
        found |= {measured.length for measured in entry.measures}
        if entry.spacing[1] is not None:
            found.add(entry.spacing[1].length)
        for value in entry.options.values():
            several = value if isinstance(value, tuple) else (value,)
            found |= {one.length for one in several if isinstance(one, Measured)}
        if entry.name in ("sew", "hem"):
            found |= set(_allowances(pattern, step))
    return found


def _allowances(pattern: Pattern, step: Step) -> Iterator[Length]:
    for entry in step.work:
        for name in (*entry.things, *(name for side in entry.sides for name in side)):
            piece = pattern.pieces.get(name.part)
            edge = piece.edges.get(name.edge) if piece is not None else None
            yield edge.allowance if edge is not None else pattern.allowance


@cache
def _doing() -> frozenset[str]:
    return frozenset(stem(word) for word in spoken()["doing"])
