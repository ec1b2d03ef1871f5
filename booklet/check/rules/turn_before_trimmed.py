"""A part is turned right side out with its enclosed seam untrimmed.

What it finds: `turn` on a part that has a seam made `enclosed`, wider than what is usually left, which no entry has
trimmed, graded, clipped or notched. A plain seam across the folded end of a cuff or a band, or round the corner of a
collar, is enclosed as well; one along a tube is left to the writer.

Why it matters at the machine: the full allowances are bunched inside. Corners won't come to a point, and the edge
will not lie flat.

Wrong:
    steps:
      - {id: sew, title: Sew the collar, work: [{sew: [collar.outer, collar.outer], seam: enclosed}, {turn: collar}]}

Right:
    steps:
      - id: sew
        title: Sew the collar
        work: [{sew: [collar.outer, collar.outer], seam: enclosed}, {trim: 1/4 in}, {notch: every 1/2 in},
           {turn: collar}]

Source: published: Goodheart-Willcox (2012), pp. 451-453: enclosed seams are trimmed and graded before they are
turned.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.inside_out import shape
from booklet.check.numbers import limit, seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "warning"
CUT_DOWN = ("trim", "grade", "clip", "notch")


def find(bench: Bench) -> Iterator[Found]:
    seen: set[Seam] = set()
    for act in bench.of("turn"):
        inside = set(act.cuts)
        for seam in dict.fromkeys(seam for cut in act.cuts for edge in cut.edges.values() for seam in edge.seams):
            if seam in seen or seam.act.time > act.time:
                continue
            shut_in = shape(seam) in ("end", "corner")
            if shut_in or (seam.construction == "enclosed" and all(edge.cut in inside for edge in seam.edges)):
                seen.add(seam)
                if not _cut_down(seam, act.time) and seam.allowance > limit("usual trim", seam.allowance.metric):
                    yield _found(act, seam)


def _cut_down(seam: Seam, time: int) -> bool:
    trimmed = any(len(layer.widths) > 1 for layer in seam.layers)
    return trimmed or any(act.time < time for act in seam.acts(*CUT_DOWN))


def _found(act: Act, seam: Seam) -> Found:
    usual = limit("usual trim", seam.allowance.metric)
    said = seam_said(seam)
    return Found(
        act.place,
        act.step,
        f"{said[0].upper()}{said[1:]} is turned with its allowances untrimmed, {seam.allowance} wide.",
        f"Trim or grade it before the turn: {usual} is usual; then clip or notch its curves and corners.",
        (Related("It is sewn here", seam.act.place),),
    )
