"""Basting is never covered by a seam.

What it finds: two edges that are basted together, one of which lies in no seam, hem or closing when the last step is
done; often because the seam that was to take it in is sewn before.

Why it matters at the machine: basting only holds until the seam is sewn. Left as it is, it pulls out in wear.

Wrong:
    steps:
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}

Right:
    steps:
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}
      - {id: sew, title: Sew the facing, work: [{sew: [front.neckline, neck facing.neckline]}]}

Source: common practice, no source: a basted collar lies at 3/8 in, so that the 5/8 in seam of the facing covers it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.loose import loose
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    late: dict[tuple[Step, Act], list[Act]] = {}
    apart = loose(bench) if bench.bastings else None
    for basting in bench.bastings:
        act = basting.act
        bare = [edge for edge in basting.edges if edge.closed is None and not edge.excused]
        shut = [edge.closed for edge in basting.edges if edge.closed is not None]
        if apart is not None and all(apart.explains(edge) for edge in bare):
            continue
        if not bare or act.broken or told(bench, act.step, *(each.step for each in shut)):
            continue
        before = [each for each in shut if each.time < act.time]
        if before:
            late.setdefault((act.step, before[-1]), []).append(act)
        else:
            yield _never(act, bare)
    for (step, closing), acts in late.items():
        yield _late(step, closing, acts)


def _never(act: Act, bare: list[Edge]) -> Found:
    are = "are" if len(bare) > 1 else "is"
    return Found(
        act.place,
        act.step,
        f"{listed(edge.called for edge in bare)} {are} basted here, and no seam covers the basting.",
        "Add the seam that takes these edges, or sew them here instead of basting.",
    )


def _late(step: Step, closing: Act, acts: list[Act]) -> Found:
    """One finding for all that a step bastes to edges which one entry has closed."""
    edges = list(dict.fromkeys(edge for act in acts for edge in act.edges))
    bare = listed(edge.called for edge in edges if edge.closed is None)
    shut = [edge.called for edge in edges if edge.closed is closing]
    are = "are" if len(shut) > 1 else "is"
    return Found(
        acts[0].place,
        step,
        f"{bare} can't be basted in here any more: {listed(shut)} {are} sewn before, {where(closing.step, step)}.",
        put_before("the basting", closing.step, step),
        (Related("It is sewn here", closing.place),),
        move=movable(step, closing.step),
    )
