"""A row of the house's rounding is too far from the exact measure.

What it finds: a row under `metric` that is more than 1 mm off, for measures up to 2 in; more than one part in twenty,
for longer ones; and for cloth, more than an eighth of a yard too much or one part in twenty too little.

Why it matters at the machine: who sews in the other system sews another garment, or stands in the shop with too
little cloth.

Wrong:
    metric: {5/8 in: 1.2 cm}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    metric: {5/8 in: 1.5 cm}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: published: 1 in = 25.4 mm exactly (addendum to NBS Circular 572); that 1 mm is near enough is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.rounding import exact, too_far
from booklet.length import usual
from booklet.model.pattern import Pattern

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for first, other in pattern.rounding:
        if first.length.metric == other.length.metric:
            yield Found(
                other.place,
                None,
                f"{first.length} and {other.length} are of one system; a row of “metric” rounds from one to the other.",
                f"Write {first.length}: {usual(first.length)}.",
            )
        elif too_far(first.length, other.length):
            yield Found(
                other.place,
                None,
                f"{first.length} is {exact(first.length, other.length)}, and the house's {other.length} is too far "
                "from it.",
                f"Write {usual(first.length)}, or another measure that is nearer.",
            )
