"""An outward curve is clipped, or an inward one notched.

What it finds: `clip: every …` on a seam whose curved edges all curve outward, or `notch: every …` where all curve
inward. A seam that joins an inward curve to an outward one, as a sleeve cap to an armhole, is never found.

Why it matters at the machine: a clip lets the allowance spread, as an inward curve needs when it is turned. On an
outward curve there is too much cloth, not too little, and only notches take it away.

Wrong:
    steps:
      - {id: outer, title: Sew the collar, work: [{sew: [collar.outer, neck facing.outer]}, {clip: every 1/2 in}]}

Right:
    steps:
      - {id: outer, title: Sew the collar, work: [{sew: [collar.outer, neck facing.outer]}, {notch: every 1/2 in}]}

Source: published: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 452.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    curves = table("curves")
    for act in bench.of("clip", "notch"):
        how, measured = act.entry.spacing
        if act.seam is None or how != "every" or measured is None:
            continue
        curved = [edge for edge in act.seam.edges if edge.spec.curve]
        kinds = {edge.spec.curve for edge in curved}
        if len(kinds) != 1 or curves[curved[0].spec.curve]["cut"] == act.name:
            continue
        curve = curves[curved[0].spec.curve]
        yield Found(
            act.place,
            act.step,
            f"Here {listed(edge.called for edge in curved)} {'curves' if len(curved) == 1 else 'curve'} "
            f"{curved[0].spec.curve}, and {curve['name']} is {curve['done']} so that it turns flat.",
            f"Write “{curve['cut']}: every {measured.length}”, or correct the curve of the piece.",
            (Related(f"{curved[0].called} is drawn here", curved[0].spec.place),),
        )
