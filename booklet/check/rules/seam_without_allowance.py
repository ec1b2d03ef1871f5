"""A seam is sewn on an edge that has no allowance.

What it finds: `sew` where the allowance is 0, in the entry or on one of its edges as drawn. A lapped seam needs it on
one of its sides only.

Why it matters at the machine: the needle runs off the edge, and nothing holds the seam.

Wrong:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder], allowance: 0 in}]}

Right:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew"):
        stated = act.entry.measure("allowance")
        if act.broken or act.seam is None:
            continue
        if stated is not None:
            if not stated:
                yield Found(
                    act.entry.place_of("allowance"),
                    act.step,
                    "This seam is sewn with an allowance of 0.",
                    f"Write how far from the edge it is sewn; the pattern's allowance is {bench.pattern.allowance}.",
                )
            continue
        edges = as_drawn(act)
        bare = [edge for edge in edges if not edge.allowance()]
        if not bare or (act.seam.construction == "lapped" and len(bare) < len(edges)):
            continue
        own = bare[0].spec.own_allowance
        yield Found(
            act.place,
            act.step,
            f"This seam has nothing to hold it: {listed(edge.called for edge in bare)} "
            f"{'is' if len(bare) == 1 else 'are'} drawn without an allowance.",
            "Draw an allowance there, or bind or finish the edge instead of sewing it.",
            (Related("It is drawn here", own.place if own else bench.pattern.allowance_place),),
        )
