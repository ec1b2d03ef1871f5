"""A clip or notch is deeper than the row of staystitching lies.

What it finds: `clip` or `notch` with a `deep:` that stays within the seam, and passes the staystitching inside it.
What was trimmed off before is taken into account.

Why it matters at the machine: the cut row holds the edge no longer, and the clip tears on as far as the seam.

Wrong:
    steps:
      - {id: stay, title: Staystitch, work: [{staystitch: front.neckline, at: 1/2 in}]}
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 3/8 in}, {clip: every 1/2 in, deep: 5/16 in}]

Right:
    steps:
      - {id: stay, title: Staystitch, work: [{staystitch: front.neckline, at: 1/2 in}]}
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 3/8 in}, {clip: every 1/2 in, deep: 1/4 in}]

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 452: clips go up to the
staystitching and not through it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.cuts import deep_cuts, past, staystitched
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "warning"
CUT = {"clip": "Clips", "notch": "Notches"}


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act, deep in deep_cuts(bench):
        assert act.seam is not None
        if past(deep, min(layer.width_at(act.time) for layer in act.seam.layers), house):
            continue
        rows = [row for layer in act.seam.layers for row in staystitched(layer, act.time) if past(deep, row[2], house)]
        if rows:
            nearest = min(row for _, _, row in rows)
            _, stay, _ = rows[0]
            yield Found(
                act.entry.place_of("deep"),
                act.step,
                f"{CUT[act.name]} {deep} deep cut through the staystitching of {listed(e.called for e, _, _ in rows)}: "
                f"it lies {nearest} from the edge as it is cut now.",
                f"Write {nearest} or less.",
                (Related("It is staystitched here", stay.place),),
            )
