"""An allowance is trimmed to a width that it does not have.

What it finds: `trim` to a width at which no layer of the seam loses anything, because each is as narrow already.

Why it matters at the machine: the sewer looks for something to cut, and doubts the seam just sewn.

Wrong:
    steps:
      - {id: neck, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 3/4 in}]}

Right:
    steps:
      - {id: neck, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/4 in}]}

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 451: 1/8 to 1/4 in is left.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, limit, reaches, seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Layer

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("trim"):
        if act.seam is None or not act.entry.measures or any(edge.excused for edge in act.seam.edges):
            continue
        to = act.entry.measures[0]
        trimmed = [layer for layer in act.seam.layers if any(time == act.time for time, _ in layer.widths)]
        if not trimmed or beyond("most trim", to.length):
            continue
        if all(reaches(to.length, layer.width_at(act.time), bench.pattern.house) for layer in trimmed):
            yield _found(act, trimmed)


def _found(act: Act, trimmed: list[Layer]) -> Found:
    assert act.seam is not None
    to = act.entry.measures[0]
    left = max(layer.width_at(act.time) for layer in trimmed)
    usual = limit("usual trim", left.metric)
    earlier = [other for other in act.seam.acts("trim", "grade") if other.time < act.time]
    since = earlier[-1] if earlier else act.seam.act
    if earlier and since.step is not act.step:
        has = f"only {left} is left of it since {since.step.called}"
    else:
        has = f"only {left} is left of it" if earlier else f"its allowances are {left} wide"
    return Found(
        to.place,
        act.step,
        f"Trimming {seam_said(act.seam)} to {to.length} cuts nothing off: {has}.",
        f"Write less than {left}; {usual} is usual."
        if usual < left
        else f"Write less than {left}, or leave the trimming out.",
        (Related(f"{left} is left from here on", since.place),),
    )
