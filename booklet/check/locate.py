"""The exact place of a few words inside a text of the source, however the text is folded, quoted or indented."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.finding import Place

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.read.tree import Text

# What ends a line in YAML 1.1, as the reader counts them.
_BREAK = r"\r\n|[\n\r\x85\u2028\u2029]"


@lru_cache(maxsize=64)
def _lines(text: str) -> tuple[str, ...]:
    return tuple(re.split(_BREAK, text))


def place_of(pattern: Pattern, text: Text, needle: str, nth: int = 0) -> Place:
    """Where `needle` stands in the text for the nth time, counted from 0; the text itself where it can't be told."""
    words = r"\s+".join(re.escape(word) for word in needle.split())
    return _found(pattern, text.place, words, nth) or text.place


def key_place(pattern: Pattern, within: Place, key: str) -> Place:
    """Where a key stands in a mapping of which the model keeps only the name; the mapping where it can't be told."""
    return _found(pattern, within, rf"(?<![\w-])[\"']?{re.escape(key)}(?=[\"']?\s*:)", 0) or within


def _found(pattern: Pattern, within: Place, expression: str, nth: int) -> Place | None:
    lines = _lines(pattern.texts.get(within.file, ""))[within.line - 1 : within.end_line]
    if not lines or expression == "":
        return None
    lines = (" " * (within.column - 1) + lines[0][within.column - 1 :], *lines[1:])
    if within.end_line - within.line + 1 == len(lines):
        lines = (*lines[:-1], lines[-1][: within.end_column - 1])
    joined = "\n".join(lines)
    for count, match in enumerate(re.finditer(expression, joined)):
        if count == nth:
            start, end = match.span()
            return Place(within.file, *_line_and_column(joined, start, within), *_line_and_column(joined, end, within))
    return None


def _line_and_column(joined: str, at: int, within: Place) -> tuple[int, int]:
    return within.line + joined.count("\n", 0, at), at - joined.rfind("\n", 0, at)
