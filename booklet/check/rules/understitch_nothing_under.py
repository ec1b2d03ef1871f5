"""A facing is understitched where nothing of its seam is left to be caught.

What it finds: `understitch` farther from the seam than the widest layer of its allowances reaches: farther than `at`
says, or, where it says nothing, than the usual 1/8 in.

Why it matters at the machine: the row must run through the facing and both allowances. Through the facing alone it
holds nothing, and the facing rolls out.

Wrong:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/8 in}, {press: toward neck facing},
           {understitch: neck facing, at: 1/4 in}]

Right:
    steps:
      - id: neck
        title: Face the neck
        work: [{sew: [front.neckline, neck facing.neckline]}, {trim: 1/4 in}, {press: toward neck facing},
           {understitch: neck facing, at: 1/8 in}]

Source: published: Threads, 13 Dec 2019, How to Understitch a Facing: trimmed to a scant 1/4 in, understitched 1/8 in
from the seam line.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import limit, same, seam_said
from booklet.finding import Related
from booklet.length import Length
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("understitch"):
        seam = act.seam
        if seam is None or act.broken or any(edge.excused for edge in seam.edges):
            continue
        left = max(layer.width_at(act.time) for layer in seam.layers)
        usual = limit("understitch from seam", left.metric)
        at = act.entry.measure("at") or usual
        if left >= at or same(left, at, bench.pattern.house):
            continue
        cut = [each for each in seam.acts("trim", "grade") if each.time < act.time]
        since = cut[-1] if cut else seam.act
        yield Found(
            act.entry.place_of("at"),
            act.step,
            f"Understitching {at} from the seam catches the facing alone: only {left} is left of the allowances of "
            f"{seam_said(seam)}.",
            _mend(usual, at, left),
            (Related(f"{left} is left from here on", since.place),),
        )


def _mend(usual: Length, at: Length, left: Length) -> str:
    if usual < left:
        return f"Write {usual}."
    trim = limit("usual trim", left.metric)
    return f"Trim to {trim}." if at <= trim else f"Trim to {trim}, and write {usual} here."
