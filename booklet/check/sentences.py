"""A text in its sentences, and how many words each has. Expressions are compiled when a text first needs them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from booklet.length import find as measures_in

# A stop and a capital, a blank line, or the next item of a list.
_END = r"(?<=[.!?])[\"”’)*]*\s+(?=[A-Z*{“\"(⅛¼⅜½⅝¾⅞0-9])|\n\s*\n|\n\s*(?:[-*+]|[0-9]+[.)])\s+"
_NAMED = r"\{[^{}]*\}"
_WORD = r"[^\W_][\w’'-]*"


@cache
def _expression(source: str) -> re.Pattern[str]:
    return re.compile(source)


def sentences(text: str) -> Iterator[str]:
    """The sentences of a text, without what parts them."""
    at = 0
    for end in _expression(_END).finditer(text):
        yield text[at : end.start()].strip()
        at = end.end()
    yield text[at:].strip()


def words_in(sentence: str) -> int:
    """A measure counts as one word, and so does {piece: …}."""
    plain = _expression(_NAMED).sub(" named ", sentence)
    for start, end, _ in reversed(measures_in(plain)):
        plain = f"{plain[:start]} measure {plain[end:]}"
    return len(_expression(_WORD).findall(plain))


def has_long_one(text: str, most: int) -> bool:
    """Whether a sentence may have more words than that, by a quick look that counts too many rather than too few."""
    plain = text.replace("? ", ". ").replace("! ", ". ")
    return any(chunk.count(" ") >= most and len(chunk.split()) > most for chunk in plain.split(". "))
