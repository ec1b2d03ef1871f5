"""The numbers of a mock French seam do not add up.

What it finds: `seam: mock french` whose `width` is half the allowance or more: what is turned in of each allowance must
end before the seam. Of 5/8 in, 1/4 in turned in leaves 5/8 in - 1/4 in = 3/8 in, and ends 1/8 in before the seam.

Why it matters at the machine: the turned-in edges double back across the seam and make a ridge, or there is nothing
left to stitch together.

Wrong:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: mock french, width: 1/2 in}]

Right:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: mock french, width: 1/4 in}]

Source: published: Oklahoma Coop. Ext. 4-H No. 810, Fabrics & Fashions: a clean finish turns under 1/4 in of 5/8 in; the
sum is plane geometry.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, in_system_of, same
from booklet.length import Length
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act in bench.of("sew"):
        seam, width = act.seam, act.entry.measure("width")
        if act.broken or seam is None or width is None or seam.construction != "mock french" or not seam.allowance:
            continue
        if beyond("most seam allowance", seam.allowance):
            continue
        width = in_system_of(width, seam.allowance, house)
        half = Length(seam.allowance.amount / 2, seam.allowance.unit)
        if width > half and not same(width, half, house):
            yield Found(
                act.entry.place_of("width"),
                act.step,
                f"With {width} of each allowance turned in, its edge reaches past the seam: the allowance is "
                f"{seam.allowance}, and half of it is {half}.",
                f"Write a width of {half} or less.",
            )
