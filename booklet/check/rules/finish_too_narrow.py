"""An allowance is too narrow for its finish.

What it finds: `finish` with `how: clean`, which turns the edge under, on a seam of whose allowances less is left than
is turned.

Why it matters at the machine: there is not enough to turn and to stitch. The fold springs back, or the seam is
caught in it.

Wrong:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}, {trim: 1/8 in}, {finish: seam, how: clean}]

Right:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}, {finish: seam, how: clean}]

Source: published: Oklahoma Coop. Ext. 4-H No. 810: a clean finish turns 1/4 in under, stitched close to the fold.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit, same, seam_said
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("finish"):
        how, seam = act.entry.options.get("how"), act.seam
        if how is None or how.value != "clean" or seam is None or any(edge.excused for edge in seam.edges):
            continue
        left = min(layer.width_at(act.time) for layer in seam.layers)
        least = limit("least clean finish", left.metric)
        if left >= least or same(left, least, bench.pattern.house):
            continue
        cut = [each for each in seam.acts("trim", "grade") if each.time < act.time]
        since = cut[-1] if cut else seam.act
        yield Found(
            act.entry.place_of("how"),
            act.step,
            f"A clean finish turns {least} under, and only {left} is left of the allowances of {seam_said(seam)}.",
            f"Trim to {least} or more, or choose another finish, such as “how: zigzag”.",
            (Related(f"{left} is left from here on", since.place),),
        )
