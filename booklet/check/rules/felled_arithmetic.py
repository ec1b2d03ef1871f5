"""The numbers of a felled seam do not add up.

What it finds: `seam: flat felled`, `mock felled` or `welt` whose `trim` and `width` do not fit into the allowance.
What is folded over must reach past the trimmed edge, and what is turned under must end before the seam: with an
allowance of 5/8 in and a width of 3/8 in, 5/8 in - 3/8 in = 1/4 in is turned under.

Why it matters at the machine: the fold lies beside the raw edge instead of over it, or the turned-under edge doubles
back across the seam and makes a ridge.

Wrong:
    steps:
      - id: join
        title: Fell the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: flat felled, trim: 1/4 in, width: 1/4 in}]

Right:
    steps:
      - id: join
        title: Fell the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: flat felled, trim: 1/4 in, width: 3/8 in}]

Source: published: Central Washington Univ. costume text, ch. 21: 5/8 in, the under allowance trimmed to 1/4 in, the
other folded over it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, in_system_of, reaches, same
from booklet.length import House, Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew"):
        seam, trim, width = act.seam, act.entry.measure("trim"), act.entry.measure("width")
        if act.broken or seam is None or seam.construction not in ("flat felled", "mock felled", "welt"):
            continue
        if (
            trim is not None
            and width is not None
            and seam.allowance
            and not beyond("most seam allowance", seam.allowance)
        ):
            house = bench.pattern.house
            width = in_system_of(width, seam.allowance, house)
            yield from _fold(act, seam.allowance, width, house)
            yield from _covers(act, trim, width, house)


def _fold(act: Act, allowance: Length, width: Length, house: House) -> Iterator[Found]:
    """Flat: something is left to turn under, and ends before the seam. Mock: the stitching catches the edge."""
    flat = act.seam is not None and act.seam.construction == "flat felled"
    if reaches(width, allowance, house):
        nothing = "nothing is left of it to turn under" if flat else "the stitching misses its edge"
        yield Found(
            act.entry.place_of("width"),
            act.step,
            f"The fold lies {width} from the seam and the allowance is {allowance}, so {nothing}.",
            f"Write a width of less than {allowance}.",
        )
    elif flat and allowance - width > width and not same(allowance - width, width, house):
        yield Found(
            act.entry.place_of("width"),
            act.step,
            f"With the fold {width} from the seam, {allowance} − {width} = {allowance - width} is turned "
            "under, and reaches past the seam.",
            f"Write a width of {_half(allowance)} or more.",
        )


def _half(allowance: Length) -> Length:
    return Length(allowance.amount / 2, allowance.unit)


def _covers(act: Act, trim: Length, width: Length, house: House) -> Iterator[Found]:
    if trim > width and not same(trim, width, house):
        yield Found(
            act.entry.place_of("trim"),
            act.step,
            f"The under allowance is trimmed to {trim}, but the other is folded over it at {width}, "
            "so a raw edge is left outside.",
            f"Trim to {width} or less.",
        )
