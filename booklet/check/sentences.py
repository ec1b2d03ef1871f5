"""A text in its sentences, and how many words each has."""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.length import find as measures_in

# A stop and a capital, a blank line, or the next item of a list.
_END = re.compile(r"(?<=[.!?])[\"”’)*]*\s+(?=[A-Z*{“\"(⅛¼⅜½⅝¾⅞0-9])|\n\s*\n|\n\s*(?:[-*+]|[0-9]+[.)])\s+")
_NAMED = re.compile(r"\{[^{}]*\}")
_WORD = re.compile(r"[^\W_][\w’'-]*")


def sentences(text: str) -> Iterator[str]:
    """The sentences of a text, without what parts them."""
    at = 0
    for end in _END.finditer(text):
        yield text[at : end.start()].strip()
        at = end.end()
    yield text[at:].strip()


def words_in(sentence: str) -> int:
    """A measure counts as one word, and so does {piece: …}."""
    plain = _NAMED.sub(" named ", sentence)
    for start, end, _ in reversed(measures_in(plain)):
        plain = f"{plain[:start]} measure {plain[end:]}"
    return len(_WORD.findall(plain))
