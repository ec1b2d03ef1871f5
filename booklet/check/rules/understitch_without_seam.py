"""A facing is understitched before it is sewn on.

What it finds: `understitch` on a part that lies in no seam yet.

Why it matters at the machine: understitching goes through the facing and both allowances of its seam. Without the
seam it holds nothing.

Wrong:
    steps:
      - {id: under, title: Understitch, work: [{understitch: neck facing}]}
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}

Right:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: under, title: Understitch, work: [{press: toward neck facing}, {understitch: neck facing}]}

Source: published: Goodheart-Willcox (2012), p. 453: through the facing and the seam allowances.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    waiting = {missing.step for missing in bench.missing if missing.kind == "no seam"}
    for act in bench.of("understitch"):
        lost = any(edge.excused for cut in act.cuts for edge in cut.edges.values() if cut.called == cut.piece.name)
        explained = lost or act.broken or told(bench, act.step) or act.step in waiting
        if act.seam is None and act.cuts and not explained and not any(cut.trusted for cut in act.cuts):
            yield _found(act)


def _found(act: Act) -> Found:
    thing = act.entry.things[0]
    later = min(
        (seam.act for cut in act.cuts for edge in cut.edges.values() for seam in edge.seams),
        key=lambda each: each.time,
        default=None,
    )
    return Found(
        thing.place,
        act.step,
        f"{thing.written} can't be understitched yet: it has not been sewn to anything.",
        _mend(act, later),
        (Related(f"{thing.written} is sewn here", later.place),) if later else (),
        move=act.step if later and later.step is not act.step else None,
    )


def _mend(act: Act, later: Act | None) -> str:
    written = act.entry.things[0].written
    if later is None or later.seam is None:
        return f"Add the seam that joins {written}."
    pressed = later.seam.acts("press")
    toward = "" if pressed else f", and press its seam toward {written} in between"
    return f"Move {act.step.called}, to after {later.step.called}{toward}."
