"""Two pieces have one number.

What it finds: pieces that one view cuts and whose `number:` is the same. Pieces of different views may share one.

Why it matters at the machine: the number is all that is printed on many a paper piece. A step that says “sew 3 to 4”,
or a list that cuts 3 twice, sends the sewer to the wrong piece.

Wrong:
    pieces:
      front: {number: 1, cut: {self: 1 on fold}, edges: {side: {}, fold: {}}}
      back: {number: 1, cut: {self: 1 on fold}, edges: {side: {}, fold: {}}}
    steps:
      - {id: sides, title: Sew the sides, work: [{sew: [front.side, back.side]}]}

Right:
    pieces:
      front: {number: 1, cut: {self: 1 on fold}, edges: {side: {}, fold: {}}}
      back: {number: 2, cut: {self: 1 on fold}, edges: {side: {}, fold: {}}}
    steps:
      - {id: sides, title: Sew the sides, work: [{sew: [front.side, back.side]}]}

Source: common practice, no source
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.finding import Related
from booklet.model.pattern import Pattern, Piece
from booklet.read.tree import same_name

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    first: dict[str, list[Piece]] = {}
    for piece in pattern.pieces.values():
        number = same_name(piece.number)
        others = first.setdefault(number, [])
        clash = next((other for other in others if set(other.scope.views) & set(piece.scope.views)), None)
        others.append(piece)
        if number and clash is not None:
            yield Found(
                piece.place,
                None,
                f"{piece.name} has the number {piece.number}, and so has {clash.name}.",
                "Give each piece of a view a number of its own.",
                (Related(f"{clash.name} is here", clash.place),),
            )
