"""How many words are said, and how fast: for the takes of a film."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.sentences import words_in
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
