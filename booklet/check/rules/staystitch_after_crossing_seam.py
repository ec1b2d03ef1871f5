"""An edge is staystitched only after a seam or dart that runs into it.

What it finds: `staystitch` on an edge that is still open, where a seam along a neighbouring edge, or a dart that
crosses it, was sewn before.

Why it matters at the machine: the curve has been handled, and may have stretched, while the other seam was sewn.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: stay, title: Staystitch, work: [{staystitch: [front.neckline, back.neckline], at: 1/2 in}]}

Right:
    steps:
      - {id: stay, title: Staystitch, work: [{staystitch: [front.neckline, back.neckline], at: 1/2 in}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}

Source: published: Guideline 11.135 Staystitching, and ICAR e-course, stay stitching: as soon as the curved edge is
cut.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import darts_across, movable, place_of, put_before, told, where, written
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("staystitch"):
        crossed = [(edge, first) for edge in act.edges if (first := _crossing(edge, act.time))]
        if crossed:
            edge, first = crossed[0]
            if told(bench, act.step, first.step):
                continue
            what = "a dart" if first.darts else "a seam"
            yield Found(
                place_of(act, edge),
                act.step,
                f"{written(act, edge)} is staystitched after {what} that runs into it, {where(first.step, act.step)}.",
                put_before("the staystitching", first.step, act.step),
                (Related(f"{'The dart' if first.darts else 'The seam'} is sewn here", first.place),),
                move=movable(act.step, first.step),
            )


def _crossing(edge: Edge, time: int) -> Act | None:
    if edge.closed is not None and edge.closed.time < time:
        return None
    seams = (seam.act for other in edge.neighbours for seam in other.seams)
    found = [act for act in (*seams, *darts_across(edge)) if act.time < time]
    return min(found, key=lambda act: act.time, default=None)
