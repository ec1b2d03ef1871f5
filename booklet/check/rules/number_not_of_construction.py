"""A seam has a number that its construction does not use.

What it finds: `passes`, `width` or `cord` on a `sew` whose `seam:` has no such number: a plain seam with the passes of
a French one.

Why it matters at the machine: either the seam is of another kind than the entry says, and is sewn and drawn wrong, or
the number is left over from an older draft.

Wrong:
    steps:
      - {id: side, title: Sew the sides, work: [{sew: [front.side, back.side], passes: [3/8 in, 1/4 in]}]}

Right:
    steps:
      - {id: side, title: Sew the sides, work: [{sew: [front.side, back.side], seam: french, passes: [3/8 in, 1/4 in]}]}

Source: our choice: each construction's numbers are those of the published manner named in craft/constructions.yaml
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.craft.load import constructions
from booklet.sew.bench import Bench

LEVEL = "error"
NUMBERS = ("passes", "width", "cord")


def find(bench: Bench) -> Iterator[Found]:
    rows = constructions()
    for act in bench.of("sew"):
        word = act.entry.options.get("seam")
        name = word.value if word else "plain"
        for number in NUMBERS:
            if number in act.entry.options and not _has(rows[name], number):
                others = listed((f"“seam: {other}”" for other, row in rows.items() if _has(row, number)), "or")
                yield Found(
                    act.entry.place_of(number),
                    act.step,
                    f"{'An' if name[0] in 'aeiou' else 'A'} {name} seam has no “{number}”.",
                    f"Write {others}, or leave “{number}” out.",
                )


def _has(row: dict[str, object], number: str) -> bool:
    return number in str(row.get("needs", "")) or f"{{{number}" in str(row["says"])
