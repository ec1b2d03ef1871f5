"""A text gives a measure in both systems, and not as the house rounds it.

What it finds: a pair such as “5/8 in (1.5 cm)” in any text, where the house's `metric` has another partner for the
measure; or, where the house has no row for it, a pair that is too far from exact.

Why it matters at the machine: one booklet speaks of 1.5 cm here and of 1.6 cm there for the same seam, and the sewer
asks which.

Wrong:
    metric: {5/8 in: 1.6 cm}
    steps:
      - id: hem
        title: Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]
        text: "Seams are 5/8 in (1.5 cm)."

Right:
    metric: {5/8 in: 1.6 cm}
    steps:
      - id: hem
        title: Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]
        text: "Seams are 5/8 in (1.6 cm)."

Source: our choice: one rounding for the whole booklet; 5/8 in is 1.5 cm in some houses and 1.6 cm in others.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.prose import prose_of
from booklet.check.rounding import too_far
from booklet.finding import Place, Related
from booklet.length import Length
from booklet.length import find as measures_in
from booklet.model.pattern import Pattern

LEVEL = "warning"
_BETWEEN = re.compile(r"\s*[(/]\s*\Z")


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    rows = {same.length: (same.length, other.length, other.place) for same, other in reversed(pattern.rounding)}
    back = {other.length: (other.length, same.length, same.place) for same, other in reversed(pattern.rounding)}
    for text, step in prose_of(pattern):
        measures = measures_in(text.value) if "(" in text.value or "/" in text.value else ()
        for (_, end, first), (start, after, second) in pairwise(measures):
            if first.metric == second.metric or not _BETWEEN.match(text.value[end:start]):
                continue
            row = rows.get(first) or back.get(first)
            if row[1] == second if row else not too_far(first, second):
                continue
            written = text.value[start:after]
            nth = text.value.count(written, 0, start)
            yield Found(place_of(pattern, text, written, nth), step, *_words(pattern, first, second, row))


def _words(
    pattern: Pattern, first: Length, second: Length, row: tuple[Length, Length, Place] | None
) -> tuple[str, str, tuple[Related, ...]]:
    if row is None:
        return (
            f"{first} is not {second}.",
            f"Write {pattern.house.other(first)}, or leave the bracket out: it is added in print.",
            (),
        )
    return (
        f"{first} is {second} here, and {row[1]} in the house's table.",
        f"Write {row[1]}, or leave the bracket out: it is added in print.",
        (Related("The house's table", row[2]),),
    )
