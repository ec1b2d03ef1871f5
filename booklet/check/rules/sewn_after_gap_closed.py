"""A seam inside a bag is sewn when the bag is turned and its gap is closed.

What it finds: `sew` between pieces of a lined bag, or of anything that was turned through a gap, after the gap was
closed.

Why it matters at the machine: right sides can't be laid together any more. The seam lies inside, where no hand gets in.

Wrong:
    pieces:
      bag: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, bottom: {}}}
      lining: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, bottom: {}, turning gap: {}}}
    steps:
      - {id: sides, title: Sew the sides, work: [{sew: [bag.side, bag.side]}, {sew: [[lining.side, lining.bottom],
         [lining.side, lining.bottom]]}, {press: open}]}
      - {id: rim, title: Sew the rim, work: [{sew: [bag.top, lining.top]}, {trim: 1/4 in}], makes: pouch}
      - {id: turn, title: Turn it, work: [{turn: pouch}, {close: lining.turning gap}]}
      - {id: bottom, title: Sew the bottom, work: [{sew: [bag.bottom, bag.bottom]}]}

Right:
    pieces:
      bag: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, bottom: {}}}
      lining: {number: 2, cut: {self: 2}, edges: {top: {}, side: {}, bottom: {}, turning gap: {}}}
    steps:
      - {id: bottom, title: Sew the bottom, work: [{sew: [bag.bottom, bag.bottom]}, {press: open}]}
      - {id: sides, title: Sew the sides, work: [{sew: [bag.side, bag.side]}, {sew: [[lining.side, lining.bottom],
         [lining.side, lining.bottom]]}, {press: open}]}
      - {id: rim, title: Sew the rim, work: [{sew: [bag.top, lining.top]}, {trim: 1/4 in}], makes: pouch}
      - {id: turn, title: Turn it, work: [{turn: pouch}, {close: lining.turning gap}]}

Source: common practice, no source: the gap is closed last, when everything inside is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.meant import is_gap
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for turn in bench.of("turn"):
        cuts = set(turn.cuts)
        gaps = [edge.closed for cut in turn.cuts for edge in cut.edges.values() if is_gap(edge.spec.name)]
        closed: list[Act] = [act for act in gaps if act is not None and act.name == "close" and act.time > turn.time]
        if not closed or turn.broken:
            continue
        last = max(closed, key=lambda act: act.time)
        for seam in bench.seams:
            late = seam.act.time > last.time and all(edge.cut in cuts for edge in seam.edges)
            if late and not told(bench, seam.act.step, last.step):
                said = seam_said(seam)
                yield Found(
                    seam.act.place,
                    seam.act.step,
                    f"{said[0].upper()}{said[1:]} can't be reached any more: the gap was closed before, "
                    f"{where(last.step, seam.act.step)}.",
                    put_before("this seam", turn.step, seam.act.step),
                    (Related("The gap is closed here", last.place),),
                    move=movable(seam.act.step, turn.step),
                    late=seam.act.step,
                )
