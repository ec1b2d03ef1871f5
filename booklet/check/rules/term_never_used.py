"""A word that the pattern explains stands in none of its texts.

What it finds: a word under `terms:` that no text of the pattern uses, neither alone nor in the plural.

Why it matters at the machine: the reader learns a word for nothing. Mostly the text calls the thing by another word,
and that one is explained nowhere.

Wrong:
    terms: {placket: An opening that lets a hand or a head through.}
    steps:
      - {id: hem, title: Hem, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}], text: Hem the front.}

Right:
    terms: {placket: An opening that lets a hand or a head through.}
    steps:
      - {id: hem, title: Hem, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}], text: Hem the front below the placket.}

Source: our choice: one word for one thing, explained where it is used.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.prose import prose_of
from booklet.model.pattern import Pattern
from booklet.read.tree import same_name

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    if not pattern.terms:
        return
    meanings = {meaning for _, meaning in pattern.terms}
    said = [text.value for text, _ in prose_of(pattern) if text not in meanings]
    titles = [title for section in pattern.sections for title in (section.title, *(s.title for s in section.steps))]
    names = [piece.name for piece in pattern.pieces.values()]
    listed = [notion.item for notion in pattern.notions] + [tool.value for tool in pattern.tools]
    # What a step without text prints names its operations, its seams and its edges.
    worked = [
        " ".join(
            [
                entry.name,
                *(name.written for name in entry.things),
                *_written(entry.options.get("seam")),
                *_written(entry.options.get("to")),
            ]
        )
        for step in pattern.steps
        for entry in step.work
    ]
    everything = " ".join(" ".join(["", *said, *titles, *names, *listed, *worked]).lower().split())
    for word, meaning in pattern.terms:
        others = " ".join(m.value for w, m in pattern.terms if m is not meaning)
        if not _stands(same_name(word.value), f"{everything} {same_name(others)}"):
            yield Found(
                word.place,
                None,
                f"“{word.value.strip()}” is explained under “terms”, and no text uses the word.",
                "Use this word where the thing is spoken of, or take it out of the terms.",
            )


def _written(word: object) -> list[str]:
    value = getattr(word, "value", None)
    return [value] if isinstance(value, str) else []


def _stands(word: str, text: str) -> bool:
    """The word itself, or grown by an ending (plackets, pleated): better none told than one too many."""
    stem = word.removesuffix("s").removesuffix("e")
    return re.search(rf"(?<![\w-]){re.escape(stem)}", text) is not None
