"""A placket is made after the seam in which its ends should lie.

What it finds: `placket` on a slit whose neighbours round the piece were both sewn to another piece before, as the wrist
to a cuff.

Why it matters at the machine: the strip's ends lie in that seam. Once it is sewn, the end of the slit is shut in, and
the strip can neither go round it nor be caught.

Wrong:
    steps:
      - {id: neck, title: Face the neck, work: [{sew: [[front.neckline, front.shoulder], back.shoulder]}]}
      - {id: slit, title: Bind the slit, work: [{placket: front.slit, kind: continuous, with: pocket}]}
    pieces:
      front: {number: 1, cut: {self: 2}, edges: {neckline: {}, slit: {allowance: 1/4 in}, shoulder: {}, side: {}}}
      back: {number: 2, cut: {self: 2}, edges: {shoulder: {}, side: {}}}
      pocket: {number: 3, cut: {self: 2}, edges: {top: {}, sides: {}}}

Right:
    steps:
      - {id: slit, title: Bind the slit, work: [{placket: front.slit, kind: continuous, with: pocket}]}
      - {id: neck, title: Face the neck, work: [{sew: [[front.neckline, front.shoulder], back.shoulder]}]}
    pieces:
      front: {number: 1, cut: {self: 2}, edges: {neckline: {}, slit: {allowance: 1/4 in}, shoulder: {}, side: {}}}
      back: {number: 2, cut: {self: 2}, edges: {shoulder: {}, side: {}}}
      pocket: {number: 3, cut: {self: 2}, edges: {top: {}, sides: {}}}

Source: common practice, no source: a sleeve's placket is made in the flat sleeve, and its ends lie in the cuff's seam
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("placket"):
        for edge in act.edges:
            seam = None if act.broken else _shut_by(edge, act)
            if seam is not None and not told(bench, act.step, seam.act.step):
                yield Found(
                    act.place,
                    act.step,
                    f"{edge.called} can't be made into a placket any more: {seam_said(seam)}, which takes in its ends, "
                    f"was sewn {where(seam.act.step, act.step)}.",
                    put_before("the placket", seam.act.step, act.step),
                    (Related("It is sewn here", seam.act.place),),
                    move=movable(act.step, seam.act.step),
                )
                break


def _shut_by(edge: Edge, act: Act) -> Seam | None:
    """The seam before the act in which the edges on both sides of the slit lie."""
    near = [each for each in edge.neighbours if not each.spec.fold]
    return next(
        (
            seam
            for each in near[:1]
            for seam in each.seams
            if len(near) > 1 and seam.act.time < act.time and all(other in seam.edges for other in near)
        ),
        None,
    )
