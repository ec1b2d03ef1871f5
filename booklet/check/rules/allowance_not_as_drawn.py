"""An entry sews at another allowance than its edges are drawn with.

What it finds: `allowance:` beside `sew` or `zipper` that differs from the allowance of an edge, which is its own or
the pattern's.

Why it matters at the machine: the sewer follows the step, so the stitching misses the line that the piece was drafted
for.

Wrong:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], allowance: 3/8 in}]}

Right:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], allowance: 5/8 in}]}

Source: common practice, no source: a seam is sewn at the allowance that the piece was drawn with.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, same
from booklet.check.words import listed
from booklet.finding import Related
from booklet.length import Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew", "zipper"):
        stated = act.entry.measure("allowance")
        if act.broken or not stated or beyond("most seam allowance", stated):
            continue
        others = [edge for edge in as_drawn(act) if not same(edge.allowance(), stated, bench.pattern.house)]
        if others:
            yield _found(bench, act, stated, others)


def _found(bench: Bench, act: Act, stated: Length, others: list[Edge]) -> Found:
    drawn: dict[Length, list[Edge]] = {}
    for edge in others:
        drawn.setdefault(edge.allowance(), []).append(edge)
    these = "these edges" if len(others) > 1 else "this edge"
    paper = listed(f"{width} on {listed(edge.called for edge in edges)}" for width, edges in drawn.items())
    if len(drawn) > 1:
        mend = f"Draw these edges with {stated}, or sew them at the allowances that they have."
    elif next(iter(drawn)):
        width = next(iter(drawn))
        mend = f"Write “allowance: {width}” or leave the key out; or draw {these} with {stated}."
    else:
        mend = f"Draw {these} with {stated}."
    first = others[0].spec.own_allowance
    return Found(
        act.entry.place_of("allowance"),
        act.step,
        f"This seam is sewn {stated} from the edge, but the paper has {paper}.",
        mend,
        (Related("It is drawn here", first.place if first else bench.pattern.allowance_place),),
    )
