"""Words that sound alike: what a caption has for a word that its writer, often a machine, did not know."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable

# How alike must two words be in their sounds, 0 to 1, to be taken for one? Our choice, tuned on the tests' speech.
ALIKE = 0.72
# Short words sound like too many others.
SHORTEST = 4
# Letters that sound alike, as in English. From memory: the rules of Russell's Soundex, less coarse.
_SOUNDS = [
    (re.compile(pattern), sound)
    for pattern, sound in (
        (r"^kn|^gn|^pn", "n"), (r"^wr", "r"), (r"^wh", "w"), (r"^ps", "s"), (r"tch|ch|dge|j|sh", "J"), (r"ph", "f"),
        (r"ght", "t"), (r"gh", ""), (r"ck|qu|q|x", "k"), (r"c(?=[eiy])|z", "s"), (r"c|g", "k"), (r"v", "f"),
        (r"b", "p"), (r"d", "t"), (r"mb$", "m"), (r"[hw]", ""), (r"[aeiouy]+", "a"),
    )
]  # fmt: skip
_DOUBLED = re.compile(r"(.)\1+")


@lru_cache(65_536)
def sound(word: str) -> str:
    """Its sounds, roughly: `facing` and `phasing` are alike."""
    for pattern, letter in _SOUNDS:
        word = pattern.sub(letter, word)
    return _DOUBLED.sub(r"\1", word)


def likeness(one: str, two: str) -> float:
    """How alike two words sound and look, 0 to 1."""
    from difflib import SequenceMatcher

    looks = SequenceMatcher(None, one, two, autojunk=False).ratio()
    sounds = SequenceMatcher(None, sound(one), sound(two), autojunk=False).ratio()
    return max(looks, (looks + 2 * sounds) / 3)


class Near(NamedTuple):
    word: str
    likeness: float


class Known:
    """A vocabulary that can be asked for the word nearest in sound."""

    def __init__(self, words: Iterable[str]) -> None:
        self.words = frozenset(words)
        self._by_pair: dict[str, list[str]] = {}
        for word in sorted(self.words):
            if len(word) >= SHORTEST and word[0].isalpha():
                for pair in _pairs(word):
                    self._by_pair.setdefault(pair, []).append(word)
        self._asked: dict[str, Near | None] = {}

    def nearest(self, word: str) -> Near | None:
        """The known word that sounds most like it, itself apart; None where none is near."""
        if word not in self._asked:
            self._asked[word] = self._nearest(word)
        return self._asked[word]

    def _nearest(self, word: str) -> Near | None:
        if not SHORTEST <= len(word) <= 24 or not word[0].isalpha():
            return None
        shared: dict[str, int] = {}
        pairs = _pairs(word)
        for pair in pairs:
            for other in self._by_pair.get(pair, ()):
                shared[other] = shared.get(other, 0) + 1
        likely = sorted(shared, key=lambda other: (-shared[other] / max(len(_pairs(other)), len(pairs)), other))[:6]
        near = max((Near(other, likeness(word, other)) for other in likely if other != word),
                   key=lambda near: near.likeness, default=None)  # fmt: skip
        return near if near is not None and near.likeness >= ALIKE else None


@lru_cache(65_536)
def _pairs(word: str) -> frozenset[str]:
    """Neighbouring sounds, with the ends."""
    heard = f"^{sound(word)}$"
    return frozenset(heard[at : at + 2] for at in range(len(heard) - 1))
