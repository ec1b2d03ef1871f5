"""An edge is sewn to its own other copy, and the piece is cut only once.

What it finds: a `sew` with one edge on both sides, as in `[back.centre back, back.centre back]`, which means the left
copy to the right, of a piece that is cut once and not on the fold. A name in the plural, as
`band.ends`, stands for both ends of the piece, and is left alone.

Why it matters at the machine: there is nothing to sew it to. Whoever cuts by the list has half a back.

Wrong:
    pieces:
      back: {number: 1, cut: {self: 1}, edges: {side: {}, hem: {}, centre back: {}}}
    steps:
      - {id: back, title: Sew the centre back, work: [{sew: [back.centre back, back.centre back]}]}

Right:
    pieces:
      back: {number: 1, cut: {self: 2}, edges: {side: {}, hem: {}, centre back: {}}}
    steps:
      - {id: back, title: Sew the centre back, work: [{sew: [back.centre back, back.centre back]}]}

Source: our choice: this is what one edge named twice means in the source
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew"):
        if act.broken or len(act.sides) != 2 or act.sides[0] != act.sides[1]:
            continue
        for cut in dict.fromkeys(edge.cut for edge in act.edges):
            if cut.number == 1 and not _on_fold(cut) and not act.sides[0][0].name.endswith("s"):
                yield _found(act, cut)


def _on_fold(cut: CutPiece) -> bool:
    """A piece on the fold has two halves, and either edge of it is there twice."""
    return any(edge.spec.fold for edge in cut.edges.values()) or any(
        laid.on_fold and laid.number == cut.number for laid in cut.piece.cuts
    )


def _found(act: Act, cut: CutPiece) -> Found:
    edge = next(edge for edge in act.edges if edge.cut is cut)
    return Found(
        act.entry.things[0].place,
        act.step,
        f"{edge.called} is sewn to its other copy, and {cut.called} is cut only once.",
        f"Cut 2 of {cut.called}; or where the piece is folded on itself, give the two halves of the edge a name each.",
        (Related("How many are cut stands here", cut.piece.place),),
    )
