"""A step uses a part before the step that makes it.

What it finds: a name in `work` or `uses` that a later step of the same view `makes`.

Why it matters at the machine: the sewer looks for a collar that is still four pieces of cloth.

Wrong:
    steps:
      - {id: attach, title: Attach the facing, work: [{sew: [body.neckline, neck facing.neckline]}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}], makes: body}

Right:
    steps:
      - id: shoulders
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]
        makes: body
      - {id: attach, title: Attach the facing, work: [{sew: [body.neckline, neck facing.neckline]}]}

Source: published: the unit method of construction (as summarised by sewing-book texts): each unit is completed before
it is joined to another.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in bench.missing:
        maker = missing.maker
        if missing.kind == "made later" and maker is not None:
            yield Found(
                missing.place,
                missing.step,
                f"“{missing.written}” is used here, but it is made later, in {maker.called}.",
                f"Move {missing.step.called}, to after {maker.called}.",
                (Related("It is made here", maker.place),),
                move=missing.step,
            )
