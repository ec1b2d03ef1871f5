"""What a film may show: the steps of its view and the takes of none, in order, each with the words that tell it."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from booklet.length import find
from booklet.model.placing import steps_before
from booklet.read.tree import Text, same_name
from booklet.recorded.spoken import fillers, stem, tokens_of, words_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import House
    from booklet.model.pattern import EdgeName, Entry, Pattern, Step, Take

# How much does a word count by where it stands? Our choice: a title names its step; what is to be said is said.
_TITLE, _SAY, _WORK, _TEXT, _SHOW, _TIP = 4.0, 2.0, 1.5, 1.0, 1.0, 0.5
_REFERENCE = re.compile(r"\{\s*(step|piece)\s*:([^{}]*)\}", re.IGNORECASE)


class Candidate(NamedTuple):
    """A step, or a take that belongs to none. words: how much each token counts for it; phrases: pairs of stems that
    stand side by side in it, but for fillers between."""

    step: Step | None
    take: Take | None
    title: str
    words: dict[str, float]
    phrases: dict[tuple[str, str], float]

    @property
    def id(self) -> str | None:
        return self.step.id if self.step is not None else None

    @property
    def called(self) -> str:
        return self.step.called if self.step is not None else f"“{self.title}”"


def film_view(pattern: Pattern) -> str:
    """The letter of the view that is filmed: that of film.yaml, else the first."""
    wanted = pattern.film.view if pattern.film else None
    letters = list(pattern.views)
    if wanted is None:
        return letters[0] if letters else ""
    return next((letter for letter in letters if same_name(letter) == same_name(wanted.value)), letters[0])


def candidates(pattern: Pattern, letter: str) -> list[Candidate]:
    """In the order of the film as planned."""
    steps = pattern.steps_of(letter)
    before: dict[int, list[Candidate]] = {}
    for take in pattern.film.takes if pattern.film else ():
        before.setdefault(steps_before(take, pattern, steps), []).append(_of_take(take, pattern))
    found: list[Candidate] = []
    for at, step in enumerate(steps):
        found += before.get(at, [])
        found.append(_of_step(step, pattern))
    return [*found, *before.get(len(steps), [])]


class _Vocabulary:
    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self.words: dict[str, float] = {}
        self.phrases: dict[tuple[str, str], float] = {}

    def add(self, text: Text | str | None, weight: float) -> None:
        written = text.value if isinstance(text, Text) else text or ""
        written = _REFERENCE.sub(self._referred, written)
        words = words_of(written)
        for token in tokens_of(words):
            self._count(token, weight)
        stems = [stem(word.word) for word in words if word.word not in fillers()]
        for one, two in pairwise(stems):
            self.phrases[one, two] = max(self.phrases.get((one, two), 0.0), weight)
        for _, _, length in find(written):
            self._count(f"={float(self.house.other(length).millimetres):g}", weight)

    def _count(self, token: str, weight: float) -> None:
        self.words[token] = self.words.get(token, 0.0) + weight

    @property
    def house(self) -> House:
        return self.pattern.house

    def _referred(self, match: re.Match[str]) -> str:
        """A piece by its name; another step's title is no word of this one."""
        return match[2] if match[1].lower() == "piece" else " "


def _of_take(take: Take, pattern: Pattern) -> Candidate:
    vocabulary = _Vocabulary(pattern)
    title = take.title.value.strip() if take.title else ""
    vocabulary.add(title, _TITLE)
    vocabulary.add(take.say, _SAY)
    vocabulary.add(take.show, _SHOW)
    return Candidate(None, take, " ".join(title.split()), dict(vocabulary.words), vocabulary.phrases)


def _of_step(step: Step, pattern: Pattern) -> Candidate:
    vocabulary = _Vocabulary(pattern)
    vocabulary.add(step.title, _TITLE)
    vocabulary.add(step.text, _TEXT)
    vocabulary.add(step.tip, _TIP)
    vocabulary.add(step.caution, _TIP)
    vocabulary.add(step.makes, _WORK)
    for entry in step.work:
        for words in _of_entry(entry):
            vocabulary.add(words, _WORK)
    for take in step.film:
        vocabulary.add(take.say, _SAY)
        vocabulary.add(take.show, _SHOW)
    vocabulary.words[f"#{step.number}"] = 2 * _TITLE
    return Candidate(step, None, " ".join(step.title.split()), dict(vocabulary.words), vocabulary.phrases)


def _of_entry(entry: Entry) -> Iterator[str]:
    """Its operation, parts, edges, measures and options, as words."""
    yield entry.name
    named: list[EdgeName] = [*entry.things, *(name for side in entry.sides for name in side)]
    yield from dict.fromkeys(f"{name.part} {name.edge}" for name in named)
    yield from (str(measure.length) for measure in entry.measures)
    if entry.word is not None:
        yield entry.word.value
    if entry.spacing[1] is not None:
        yield str(entry.spacing[1].length)
    for value in entry.options.values():
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(one, Text):
                yield one.value
            elif hasattr(one, "length"):
                yield str(one.length)
