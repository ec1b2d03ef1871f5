"""An edge is topstitched, and a seam, hem or casing takes that edge only later.

What it finds: `topstitch` or `edgestitch` of an edge that a seam takes afterwards, or that is turned to a hem or casing
afterwards, where the row lies within the allowance. A row farther in, such as a line of decoration, is left alone.

Why it matters at the machine: the row lies on the allowance. Once the seam is sewn or the edge turned it is inside, and
the edge has no topstitching.

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
from booklet.length import Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"
SAID = {"hem": "the hem", "casing": "the casing"}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("topstitch", "edgestitch"):
        if act.broken or act.seam is not None:
            continue
        at = act.entry.measure("at")
        early = [(edge, taken) for edge in act.edges if (taken := _taken(edge, act, at)) is not None]
        if not early or told(bench, act.step, early[0][1].step):
            continue
        taken = early[0][1]
        step = taken.step
        edges = listed(dict.fromkeys(edge.called for edge, _ in early))
        there = "later in this step" if step is act.step else f"in {step.called}"
        yield Found(
            act.place,
            act.step,
            f"{edges} can't be topstitched yet: {SAID.get(taken.name, 'the seam that takes it')} is sewn {there}, and "
            "the row would lie in its allowance.",
            put_after("the topstitching", step, act.step),
            (Related("It is sewn here", taken.place),),
            move=movable(act.step, step),
        )


def _taken(edge: Edge, act: Act, at: Length | None) -> Act | None:
    """What takes the edge after the row, where the row lies within the allowance. Close to the edge, it has no `at`."""
    closed = edge.closed
    if closed is not None and closed.name in SAID and closed.time > act.time:
        return closed if at is None or at < edge.allowance() else None
    if edge.finished is not None or any(seam.act.time < act.time for seam in edge.seams):
        return None
    return next((s.act for s in edge.seams if s.act.time > act.time and (at is None or at < s.allowance)), None)
