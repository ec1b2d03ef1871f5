"""The row that holds the allowances of a seam lies beyond them.

What it finds: `seam: lapped`, `slot` or `topstitched` whose `width`, the distance of its row, is as wide as the
allowance or wider.

Why it matters at the machine: the row misses the allowance under it. A lapped seam falls apart, and a topstitched one
has loose allowances.

Wrong:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: topstitched, width: 3/4 in}]

Right:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: topstitched, width: 1/4 in}]

Source: published: FED-STD-751a, class LS: the row of a lapped seam passes through both plies.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, in_system_of, reaches
from booklet.sew.bench import Bench

LEVEL = "error"
ROWS = frozenset({"lapped", "slot", "topstitched"})


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act in bench.of("sew"):
        seam, width = act.seam, act.entry.measure("width")
        if act.broken or seam is None or width is None or seam.construction not in ROWS or not seam.allowance:
            continue
        if beyond("most seam allowance", seam.allowance):
            continue
        width = in_system_of(width, seam.allowance, house)
        if reaches(width, seam.allowance, house):
            yield Found(
                act.entry.place_of("width"),
                act.step,
                f"The row lies {width} from the seam and the allowance is {seam.allowance}, so it holds nothing.",
                f"Write a width of less than {seam.allowance}.",
            )
