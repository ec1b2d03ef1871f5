"""How much each stretch of speech speaks for each take: log-likelihoods against idle talk.

A take speaks its own words three times in ten, and everybody's the rest (a mixture of two unigram models; Ponte and
Croft 1998 and the Jelinek-Mercer smoothing of language models, from memory). What all takes say tells nothing.
"""

from __future__ import annotations

import math
from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from booklet.recorded.misheard import Known
from booklet.recorded.spoken import Word, fillers, stem, tokens_of, words_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy

    from booklet.recorded.phrases import Phrase
    from booklet.recorded.takes import Candidate

    Matrix = numpy.ndarray[tuple[int, int], numpy.dtype[numpy.float64]]
    Row = numpy.ndarray[tuple[int], numpy.dtype[numpy.float64]]

# Of the words that any take knows, how many does a take speak of its own? Our choice, tuned on the tests' speech.
OWN = 0.5
# Words of a sentence are not independent of one another, so that their weight together is less. Our choice.
TEMPER = 1.2
# Shorter ones stand beside each other by chance.
SHORTEST_JOINED = 5
# A pair of words that stand side by side as printed, against either alone; a sentence that speaks of another time.
PAIR, ASIDE, MISHEARD = 1.5, 0.25, 0.5
# A sentence that has so much of a title announces it; all of it makes it so much likelier that it begins there.
ANNOUNCED, ANNOUNCES = 0.6, 8.0
# No single word speaks louder than this; the number of a step, spoken, does.
LOUDEST, NUMBERED = 4.0, 7.0


class Evidence(NamedTuple):
    """scores: a row a phrase, a column a take; announced: the same, how much likelier a take begins there than it would
    if its title were not said."""

    scores: Matrix
    announced: Matrix


# In a title every word counts but these.
_SMALL = frozenset(
    {"the", "a", "an", "to", "of", "in", "on", "and", "its", "it", "with", "for", "from", "we", "i", "s"}
)


def _title_stems(words: Sequence[Word]) -> list[str]:
    return [stem(word.word) for word in words if word.word not in _SMALL and word.word[0].isalpha()]


class Listener:
    """Knows the words of all takes."""

    def __init__(self, takes: Sequence[Candidate], phrases: Sequence[Phrase]) -> None:
        import numpy

        self._numpy = numpy
        self.takes = takes
        self.known = Known(word for take in takes for word in take.words)
        spoken: dict[str, int] = {}
        for phrase in phrases:
            for token in self.tokens(phrase.words):
                spoken[token] = spoken.get(token, 0) + 1
        self._spoken, self._all = spoken, max(sum(spoken.values()), 1)
        self._totals = [sum(take.words.values()) or 1.0 for take in takes]
        self._rows: dict[str, Row] = {}
        self._in_titles = Counter(token for take in takes for token in set(_title_stems(words_of(take.title))))
        self._titles = [self._shares(take) for take in takes]
        self._titled: dict[str, list[int]] = {}
        for at, title in enumerate(self._titles):
            for token in title:
                self._titled.setdefault(token, []).append(at)
        self._pairs: dict[tuple[str, str], list[tuple[int, float]]] = {}
        for at, take in enumerate(takes):
            for pair, weight in take.phrases.items():
                self._pairs.setdefault(pair, []).append((at, weight))

    def _shares(self, take: Candidate) -> dict[str, float]:
        """The words of its title, each with its share of what tells it from other titles."""
        tokens = dict.fromkeys(_title_stems(words_of(take.title)))
        rare = {token: math.log(1 + len(self.takes) / self._in_titles[token]) for token in tokens}
        whole = sum(rare.values()) or 1.0
        return {token: weight / whole for token, weight in rare.items()}

    def tokens(self, words: Sequence[Word]) -> list[str]:
        """Tokens of a stretch; words that a caption parts are joined, as in `stay stitch` and `lit tle`."""
        return tokens_of(self._joined(words))

    def _joined(self, words: Sequence[Word]) -> list[Word]:
        found: list[Word] = []
        for word in words:
            if found and word.word.isalpha() and found[-1].word.isalpha():
                whole = found[-1].word + word.word
                if len(whole) >= SHORTEST_JOINED and stem(whole) in self.known.words:
                    found[-1] = Word(whole, found[-1].start, word.end)
                    continue
            found.append(word)
        return found

    def listen(self, phrases: Sequence[Phrase]) -> Evidence:
        scores = self._numpy.zeros((len(phrases), len(self.takes)))
        announced = self._numpy.ones((len(phrases), len(self.takes)))
        before: str | None = None
        for at, phrase in enumerate(phrases):
            first, last = phrase.apart
            before = before if phrase.opens == "within" else None
            for words, loud in (
                (phrase.words[:first], 1.0),
                (phrase.words[first:last], ASIDE),
                (phrase.words[last:], 1.0),
            ):
                if words:
                    before = self._hear(scores[at], words, loud, before)
            if phrase.opens != "within" and not phrase.aside:
                self._announce(announced[at], phrase)
        return Evidence(scores, announced)

    def _hear(self, row: Row, words: Sequence[Word], loud: float, before: str | None) -> str | None:
        """Adds what words say for each take. before: the stem that they go on from; gives their own last one."""
        for token in dict.fromkeys(self.tokens(words)):
            if token in self.known.words:
                row += self._row(token) * loud
            elif near := self.known.nearest(token):
                row += self._row(near.word) * (MISHEARD * near.likeness * loud)
        said = [stem(word.word) for word in self._joined(words) if word.word not in fillers()]
        stems = [*([before] if before else []), *(self._meant(word) for word in said)]
        misheard = {meant for meant, word in zip(stems[len(stems) - len(said) :], said, strict=True) if meant != word}
        for one, two in pairwise(stems):
            if mine := self._pairs.get((one, two)):
                sounds = MISHEARD if one in misheard or two in misheard else 1.0
                rare = sounds * loud * PAIR * TEMPER * math.log(1 + len(self.takes) / len(mine)) / 2
                for at, weight in mine:
                    row[at] += rare * min(1.0, 0.4 + weight / 4)
        return stems[-1] if stems else None

    def _meant(self, token: str) -> str:
        """The known word that it is, or sounds like."""
        if token in self.known.words or (near := self.known.nearest(token)) is None:
            return token
        return near.word

    def _announce(self, row: Row, phrase: Phrase) -> None:
        said = set(_title_stems(phrase.words))
        for take in {take for token in said for take in self._titled.get(token, ())}:
            share = sum(weight for token, weight in self._titles[take].items() if token in said)
            if share >= ANNOUNCED:
                row[take] = ANNOUNCES * share

    def _row(self, token: str) -> Row:
        """What one word says for each take."""
        if token not in self._rows:
            shares = [take.words.get(token, 0.0) / whole for take, whole in zip(self.takes, self._totals, strict=True)]
            # Everybody's: the mean of the takes, and how often it is really said.
            every = 0.5 * sum(shares) / len(shares) + 0.5 * self._spoken.get(token, 0) / self._all
            said = [math.log((1 - OWN) + OWN * share / every) if every else 0.0 for share in shares]
            loudest = NUMBERED if token[0] == "#" else LOUDEST
            self._rows[token] = self._numpy.array([min(one, loudest) for one in said]) * TEMPER
        return self._rows[token]
