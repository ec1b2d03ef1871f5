"""An edge is topstitched, and a seam takes that edge only later.

What it finds: `topstitch` or `edgestitch` of an edge that a seam takes afterwards, where the row lies within the
allowance of that seam. A row farther in, such as a line of decoration, is left alone.

Why it matters at the machine: the row lies on the allowance. Once the seam is sewn and turned it is inside, and the
edge has no topstitching.

Wrong:
    steps:
      - {id: row, title: Topstitch the side, work: [{topstitch: front.side, at: 1/8 in}]}
      - {id: side, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Right:
    steps:
      - {id: side, title: Join the sides, work: [{sew: [front.side, back.side]}, {press: toward front}]}
      - {id: row, title: Topstitch the side, work: [{topstitch: front.side, at: 1/8 in}]}

Source: common practice, no source: an edge is sewn and turned or pressed before it is topstitched.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, told
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("topstitch", "edgestitch"):
        at = act.entry.measure("at")
        if at is None or act.broken:
            continue
        early = [
            (edge, seam)
            for edge in act.edges
            if not any(seam.act.time < act.time for seam in edge.seams) and edge.finished is None
            for seam in edge.seams
            if seam.act.time > act.time and at < seam.allowance
        ]
        if not early or told(bench, act.step, early[0][1].act.step):
            continue
        seam = early[0][1]
        step = seam.act.step
        edges = listed(dict.fromkeys(edge.called for edge, _ in early))
        there = "later in this step" if step is act.step else f"in {step.called}"
        yield Found(
            act.place,
            act.step,
            f"{edges} can't be topstitched yet: the seam that takes it is sewn {there}, and the row would lie in its "
            "allowance.",
            put_after("the topstitching", step, act.step),
            (Related("It is sewn here", seam.act.place),),
            move=movable(act.step, step),
        )
