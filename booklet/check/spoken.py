"""How many words are said, and how fast: for the takes of a film."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.sentences import most_words_in, words_in
from booklet.length import find

if TYPE_CHECKING:
    from booklet.model.pattern import Take


def words_said(text: str) -> int:
    """A measure is two words said, as “five eighths” or “two inches” is."""
    return words_in(text) + len(find(text))


def words_of(take: Take) -> int:
    """As written out, what is said of other views too; or as many as the writer means to say."""
    written = sum(words_said(text.value) for text in (take.say, take.others) if text is not None)
    return written if take.words is None else max(written, take.words)


def at_most(take: Take) -> int:
    """As many words as `words_of`, or some more: a quick look, which takes every digit for a measure."""
    written = sum(most_words_in(text.value) for text in (take.say, take.others) if text is not None)
    return max(written, take.words or 0)
