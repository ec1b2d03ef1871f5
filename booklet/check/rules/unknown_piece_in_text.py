"""A text speaks of a piece that the pattern does not have.

What it finds: `{piece: …}` in any text, with a name that does not stand under `pieces`.

Why it matters at the machine: the booklet can't print the piece's number, and the sewer looks for a piece that isn't
there.

Wrong:
    steps:
      - id: hem
        title: Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]
        text: "Hem the {piece: frond}."

Right:
    steps:
      - id: hem
        title: Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]
        text: "Hem the {piece: front}."

Source: our choice: a name that can't be printed is a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.prose import prose_of
from booklet.check.words import listed
from booklet.model.pattern import Pattern
from booklet.read.faults import nearest
from booklet.read.tree import same_name

LEVEL = "error"
_NAMED = re.compile(r"\{\s*piece\s*:([^{}]*)\}", re.IGNORECASE)


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    known = [piece.name for piece in pattern.pieces.values()]
    for text, step in prose_of(pattern):
        seen: dict[str, int] = {}
        for match in _NAMED.finditer(text.value) if "{" in text.value else ():
            nth = seen[match.group()] = seen.get(match.group(), -1) + 1
            if same_name(match[1]) in pattern.pieces:
                continue
            near = nearest(match[1], known)
            yield Found(
                place_of(pattern, text, match.group(), nth),
                step,
                f"The text speaks of the piece “{match[1].strip()[:60]}”, and there is no such piece.",
                f"Did you mean “{near}”?" if near else f"The pieces are {listed(known)}.",
            )
