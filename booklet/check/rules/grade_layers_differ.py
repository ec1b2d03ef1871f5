"""Grading does not give each layer of the seam a width of its own.

What it finds: `grade` with more or fewer widths than the seam has layers, or with the same width for all of them. A
layer that was basted in between may have its width or not.

Why it matters at the machine: grading makes a slope of the layers so that no ridge shows. The sewer must know which
layer is cut to which width.

Wrong:
    steps:
      - {id: neck, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}, {grade: 1/4 in}]}

Right:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {grade: [1/4 in, 1/8 in]}]

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 451: each inner layer
narrower.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit, seam_said
from booklet.check.words import listed
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("grade"):
        if act.seam is None or any(edge.excused for edge in act.seam.edges):
            continue
        widths = [measured.length for measured in act.entry.measures]
        sides = len(act.seam.layers)
        if not sides <= len(widths) <= sides + _between(act.seam, act):
            yield _wrong_number(act, len(widths), sides)
        elif len(set(widths)) == 1:
            yield Found(
                act.entry.measures[0].place,
                act.step,
                f"All layers of {seam_said(act.seam)} are cut to {widths[0]}, so they end level and nothing is graded.",
                "Give each layer a width of its own, the one toward the outside the widest; "
                f"or write “trim: {widths[0]}”.",
            )


def _between(seam: Seam, act: Act) -> int:
    """How many layers were basted to the seam's edges before it was sewn."""
    own = set(seam.edges)
    bastings = dict.fromkeys(basting for edge in own for basting in edge.basted if basting.act.time < act.time)
    return sum(not set(layer.edges) & own for basting in bastings for layer in basting.layers)


def _wrong_number(act: Act, given: int, sides: int) -> Found:
    assert act.seam is not None
    metric = act.seam.allowance.metric
    usual = limit("usual trim", metric)
    example = ", ".join(str(width) for width in (usual, limit("staystitch inside seam", metric)))
    names = listed(listed(edge.called for edge in layer.edges) for layer in act.seam.layers)
    widths = "one width" if given == 1 else f"{given} widths"
    return Found(
        act.entry.measures[0].place if act.entry.measures else act.place,
        act.step,
        f"Grading gives {widths}, but {seam_said(act.seam)} has {sides} layers: {names}.",
        "Write one width a layer, in the order of the sides" + (f", such as [{example}]." if sides == 2 else "."),
    )
