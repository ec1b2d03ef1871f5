"""The machine needles that a pattern names among its notions and tools."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.craft.load import table
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Place
    from booklet.model.pattern import Notion, Pattern

# A hand needle has other numbers; these other tools only have the word in their names.
_OTHER = (r"\b(?:hands?|sewing|tapestry|embroidery|darning|beading|self-threading|knitting) needles?\b"
                    r"|\bneedle ?(?:threader|case|book|nose|board|minder|gripper|plate)\b|\bhand-sewing\b")  # fmt: skip
_PAIR = r"(?<![0-9/.])(?P<first>[0-9]{1,3}) ?/ ?(?P<second>[0-9]{1,3})(?![0-9/.]| ?(?:in|inch|yd|cm)\b)"
_METRIC = r"\b(?:nm|size|no\.?) ?(?P<nm>[0-9]{2,3})\b"


class Needle(NamedTuple):
    """written: the words of the list; sizes: metric number and the older one (either may be empty); points: rows."""

    written: str
    place: Place
    sizes: tuple[tuple[str, str], ...]
    points: tuple[str, ...]


def needles(pattern: Pattern) -> list[Needle]:
    return list(_needles(pattern))


def _needles(pattern: Pattern) -> Iterator[Needle]:
    listed = [(tool.value, tool.place) for tool in pattern.tools]
    listed += [(_said(notion), notion.place) for notion in pattern.notions]
    for written, place in listed:
        words = " ".join(written.lower().split())
        if "needle" in words and re.search(r"\bneedles?\b", words) and not re.search(_OTHER, words):
            yield Needle(written.strip(), place, tuple(_sizes(words)), tuple(_points(words)))


def _said(notion: Notion) -> str:
    return f"{notion.item} ({notion.note.value.strip()})" if notion.note else notion.item


def _sizes(words: str) -> Iterator[tuple[str, str]]:
    """`80/12`, or `12/80`: the larger is the metric one."""
    for match in re.finditer(_PAIR, words):
        first, second = sorted((match["first"], match["second"]), key=int, reverse=True)
        yield first, second
    for match in re.finditer(_METRIC, re.sub(_PAIR, "", words)):
        yield match["nm"], ""


def _points(words: str) -> Iterator[str]:
    for name, row in table("needle_points").items():
        if any(_has(words, word) for word in row["words"]):
            yield name


def _has(words: str, word: str) -> bool:
    return word in words and re.search(rf"(?<![a-z]){re.escape(word)}(?![a-z])", words) is not None
