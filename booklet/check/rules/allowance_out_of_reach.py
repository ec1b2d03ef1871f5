"""A seam is trimmed or clipped after its part was turned right side out.

What it finds: `trim`, `grade`, `clip` or `notch` on a seam that lies inside a turned collar, cuff, tube or bag; and in
one step, on the seam that it has just sewn and turned, whatever it is the seam of.

Why it matters at the machine: the allowances are inside. The sewer has to turn the part back, or leaves them as they
are.

Wrong:
    steps:
      - {id: sew, title: Sew the collar, work: [{sew: [[collar.ends, collar.outer], [collar.ends, collar.outer]]}]}
      - {id: turn, title: Turn the collar, work: [{turn: collar}]}
      - {id: trim, title: Trim the collar, work: [{trim: 1/4 in}]}

Right:
    steps:
      - {id: sew, title: Sew the collar, work: [{sew: [[collar.ends, collar.outer], [collar.ends, collar.outer]]}]}
      - {id: trim, title: Trim the collar, work: [{trim: 1/4 in}]}
      - {id: turn, title: Turn the collar, work: [{turn: collar}]}

Source: published: Goodheart-Willcox (2012), p. 453: stitch, then trim, grade and clip, then turn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.turned import Turned
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "error"
DONE = {"trim": "trimmed", "grade": "graded", "clip": "clipped", "notch": "notched"}


def find(bench: Bench) -> Iterator[Found]:
    if not bench.of("turn"):
        return
    turned = Turned(bench)
    for act in bench.of(*DONE):
        away = (turned.away(act.seam, act.time) or _just_turned(bench, act)) if act.seam else None
        if away is not None and not told(bench, act.step, away.step):
            yield _found(act, away)


def _just_turned(bench: Bench, act: Act) -> Act | None:
    """The turning between a seam and its cutting down in one step, where the seam is not asked for by name."""
    assert act.seam is not None
    if act.seam.act.step is not act.step or act.entry.options.get("of") is not None:
        return None
    between = bench.acts[act.seam.act.time + 1 : act.time]
    mine = {edge.cut for edge in act.seam.edges}
    return next((other for other in between if other.name == "turn" and mine & set(other.cuts)), None)


def _found(act: Act, away: Act) -> Found:
    assert act.seam is not None
    said = seam_said(act.seam)
    return Found(
        act.place,
        act.step,
        f"{said[0].upper()}{said[1:]} can't be {DONE[act.name]} any more: it was turned {where(away.step, act.step)}.",
        put_before(f"“{act.name}”", away.step, act.step),
        (Related("It is turned here", away.place),),
        move=movable(act.step, away.step),
    )
