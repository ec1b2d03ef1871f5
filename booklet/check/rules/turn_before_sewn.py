"""A part is turned right side out before any of it is sewn.

What it finds: `turn` on a part none of whose edges lies in a seam yet.

Why it matters at the machine: there is nothing to turn; it is still a flat piece.

Wrong:
    steps:
      - {id: turn, title: Turn the collar, work: [{turn: collar}]}
      - {id: sew, title: Sew the collar, work: [{sew: [collar.outer, collar.outer]}]}

Right:
    steps:
      - {id: sew, title: Sew the collar, work: [{sew: [collar.outer, collar.outer]}]}
      - {id: turn, title: Turn the collar, work: [{turn: collar}]}

Source: published: Goodheart-Willcox (2012), p. 453: stitch, trim, clip, press, understitch, turn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.turned import sewn_before
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("turn"):
        names = [name for name in act.entry.things if not name.edge]
        if act.broken or told(bench, act.step):
            continue
        for name, part in zip(names, act.parts, strict=False):
            cuts = part.cuts
            if cuts and part.first is not None and not any(sewn_before(cut, act.time) for cut in cuts):
                later = min((seam.act for cut in cuts for edge in cut.edges.values() for seam in edge.seams),
                            key=lambda each: each.time, default=None)  # fmt: skip
                yield _found(act, name.written, later)._replace(place=name.place)


def _found(act: Act, name: str, later: Act | None) -> Found:
    says = f"{name} can't be turned yet: no edge of it has been sewn."
    if later is None:
        return Found(act.place, act.step, says, f"Add the seam of {name} before it is turned, or take “turn:” out.")
    mend = f"Move {act.step.called}, to after {later.step.called}."
    move = act.step if later.step is not act.step else None
    return Found(act.place, act.step, says, mend, (Related(f"{name} is sewn here", later.place),), move)
