"""A cord goes into the hood or the neck of children's clothes.

What it finds: a cord or drawstring inserted at an edge, piece or part whose name speaks of a hood or a neck, in a
pattern with `for ages` of 14 years or younger. The rules of the place where the clothes are made, sold or given come
first; this is advice.

Why it matters at the machine: a cord at the neck can catch on a slide, a door or a car, and hold a child by it.

Wrong:
    for ages: [2, 6]
    notions:
      - {item: cord, length: 1 m}
    steps:
      - id: cord
        title: Thread the cord
        work: [{casing: front.neckline, turns: 5/8 in}, {insert: cord, into: front.neckline}]

Right:
    for ages: [2, 6]
    notions:
      - {item: elastic, length: 1 m}
    steps:
      - id: elastic
        title: Thread the elastic
        work: [{casing: front.neckline, turns: 5/8 in}, {insert: elastic, into: front.neckline}]

Source: standard: EN 14682 (to 14 years: no cord with free ends at hood or neck) and 16 CFR 1120.3 with ASTM F1816-97
(2T to 12).
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.notions import row_of, word_of
from booklet.craft.load import table
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    ages = bench.pattern.ages
    row = table("children")["cord at hood or neck"]
    if ages is None or ages[0] > int(row["to age"]):
        return
    for act in bench.of("insert"):
        word, named = word_of(act)
        if "cord" not in row_of(word) or named is None:
            continue
        place = next(
            (edge for edge in act.edges if _speaks(f"{edge.called} {edge.cut.part.called}", row["words"])), None
        )
        if place is not None:
            yield Found(
                named.place,
                act.step,
                f"A {word} at {place.called} can catch and hold a child fast; {row['rules']} rule out cords "
                "at hood or neck.",
                "Use elastic, a button or a snap there instead. The rules where the clothes are made, sold or given "
                "come first.",
            )


def _speaks(names: str, words: list[str]) -> bool:
    return bool(set(re.findall(r"[a-z]+", names.lower())) & set(words))
