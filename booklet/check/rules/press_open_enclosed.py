"""A seam is pressed open whose allowances can't be laid apart.

What it finds: `press: open` on a French, felled, lapped or overlocked seam; and on one that lies inside a part
already turned right side out.

Why it matters at the machine: both allowances are held together, inside the seam or under its stitching. The sewer
pulls at a seam that will not open.

Wrong:
    steps:
      - id: shoulders
        title: Join the shoulders
        work:
          - sew: [front.shoulder, back.shoulder]
            seam: french
            passes: [3/8 in, 1/4 in]
            trim: 1/8 in
          - press: open

Right:
    steps:
      - id: shoulders
        title: Join the shoulders
        work:
          - sew: [front.shoulder, back.shoulder]
            seam: french
            passes: [3/8 in, 1/4 in]
            trim: 1/8 in
          - press: toward back

Source: published: Oklahoma Coop. Ext. 4-H No. 810 (French seam) and Central Washington Univ. costume text, ch. 21
(flat felled): pressed to one side.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import where
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.check.turned import Turned
from booklet.craft.load import constructions
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    turned = Turned(bench)
    for act in bench.of("press"):
        if act.seam is None or act.entry.word is None or same_name(act.entry.word.value) != "open":
            continue
        away = turned.away(act.seam, act.time)
        held = constructions()[act.seam.construction].get("held")
        if held:
            yield _found(act, act.seam, held, Related("It is sewn here", act.seam.act.place), _TO_ONE_SIDE)
        elif away is not None:
            why = f"it lies inside what was turned {where(away.step, act.step)}"
            yield _found(act, act.seam, why, Related("It is turned here", away.place), _BEFORE)


_TO_ONE_SIDE = "Press it to one side: “press: toward” and the part."
_BEFORE = "Press it open before it is turned."


def _found(act: Act, seam: Seam, why: str, related: Related, mend: str) -> Found:
    said = seam_said(seam)
    assert act.entry.word is not None
    return Found(
        act.entry.word.place,
        act.step,
        f"{said[0].upper()}{said[1:]} can't be pressed open: {why}.",
        mend,
        (related,),
    )
