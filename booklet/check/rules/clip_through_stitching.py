"""A clip or notch is deeper than the seam's stitching lies.

What it finds: `clip` or `notch` with a `deep:` that is wider than what is left of the narrowest layer of the seam's
allowances.

Why it matters at the machine: the scissors cut the seam itself, and a hole is left that no pressing mends.

Wrong:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/4 in}, {clip: every 1/2 in, deep: 1/2 in}]

Right:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/4 in}, {clip: every 1/2 in, deep: 3/16 in}]

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 452: to the stitching, not
through it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.cuts import deep_cuts, past
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"
CUT = {"clip": "Clips", "notch": "Notches"}


def find(bench: Bench) -> Iterator[Found]:
    for act, deep in deep_cuts(bench):
        assert act.seam is not None
        left = min(layer.width_at(act.time) for layer in act.seam.layers)
        if past(deep, left, bench.pattern.house):
            trimmed = [each for each in act.seam.acts("trim", "grade") if each.time < act.time]
            since = trimmed[-1] if trimmed else act.seam.act
            yield Found(
                act.entry.place_of("deep"),
                act.step,
                f"{CUT[act.name]} {deep} deep cut through {seam_said(act.seam)}: its stitching lies {left} from the "
                "edge.",
                f"Write less than {left}, or “{act.name}: to the stitching”.",
                (Related(f"{left} is left from here on", since.place),),
            )
