"""A layer is graded to more than it has.

What it finds: a width of `grade` that is wider than what is left of that layer's allowance.

Why it matters at the machine: there is nothing to cut, so the layers end level and leave a ridge.

Wrong:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/4 in}, {grade: [3/8 in, 1/8 in]}]

Right:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {grade: [1/4 in, 1/8 in]}]

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 451: the widest layer is
left 1/4 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, same, seam_said
from booklet.check.words import listed
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("grade"):
        if act.seam is None or any(edge.excused for edge in act.seam.edges):
            continue
        for layer, to in zip(act.seam.layers, act.entry.measures, strict=False):
            left = layer.width_at(act.time)
            if (
                to.length > left
                and not same(to.length, left, bench.pattern.house)
                and not beyond("most trim", to.length)
            ):
                edges = listed(edge.called for edge in layer.edges)
                yield Found(
                    to.place,
                    act.step,
                    f"The layer of {edges} can't be graded to {to.length}: only {left} of it is left in "
                    f"{seam_said(act.seam)}.",
                    f"Write less than {left} for this layer, or {left} if it is to stay as it is.",
                )
