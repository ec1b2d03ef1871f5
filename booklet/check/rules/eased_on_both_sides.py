"""Both sides of a seam are eased.

What it finds: a seam in which every edge of two sides was drawn up by `ease`. Two gathered sides are in order, as at
the waist of a blouse-topped dress.

Why it matters at the machine: easing fits a longer edge to a shorter one. Where both are drawn up, nothing tells the
sewer how long the seam should be.

Wrong:
    steps:
      - id: sleeve
        title: Set in the sleeve
        for: B
        work: [{ease: [sleeve.cap, front.armhole, back.armhole]}, {sew: [[front.armhole, back.armhole], sleeve.cap]}]

Right:
    steps:
      - id: sleeve
        title: Set in the sleeve
        for: B
        work: [{ease: sleeve.cap}, {sew: [[front.armhole, back.armhole], sleeve.cap]}]

Source: published: Virginia Coop. Ext. 346-122 (1985), Set-In Sleeves: the ease of the cap is what it has over the
armhole.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import where, written
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge, Seam

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    eased: dict[Edge, Act] = {}
    seams: dict[Seam, None] = {}
    for act in bench.of("ease"):
        for edge in act.edges:
            eased.setdefault(edge, act)
            seams.update((seam, None) for seam in edge.seams if seam.act.time > act.time)
    for seam in seams:
        drawn = [
            layer for layer in seam.layers if layer.edges and all(_before(eased, edge, seam) for edge in layer.edges)
        ]
        if len(drawn) > 1 and not any(edge.excused for edge in seam.edges):
            last = max((eased[edge] for layer in drawn for edge in layer.edges), key=lambda act: act.time)
            yield _found(seam, last, [edge for edge in last.edges if edge in seam.edges])


def _before(eased: dict[Edge, Act], edge: Edge, seam: Seam) -> bool:
    return edge in eased and eased[edge].time < seam.act.time


def _found(seam: Seam, act: Act, edges: list[Edge]) -> Found:
    names = listed(written(act, edge) for edge in edges)
    return Found(
        act.place,
        act.step,
        f"Both sides of {seam_said(seam)} are eased, so that neither tells how long it is.",
        f"Ease the longer side alone; take the shorter one out of this entry ({names}).",
        (Related(f"It is sewn {where(seam.act.step, act.step)}", seam.act.place),),
    )
