"""A step works on a piece that this view doesn't cut.

What it finds: a piece named in `work` or `uses` of a step, in a view that the piece is not `for`.

Why it matters at the machine: a step for sleeves stands in the sleeveless booklet, and the sewer wonders what was
forgotten.

Wrong:
    steps:
      - {id: underarm, title: Sew the underarms, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}

Right:
    steps:
      - {id: underarm, title: Sew the underarms, for: sleeves, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}

Source: common practice, no source: a booklet of one view speaks only of the pieces that the view cuts.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Piece
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in once(bench, "not cut", by_part=True):
        name = same_name(missing.written.split(".")[0])
        yield _found(missing, bench.pattern.pieces[name.partition(" in ")[0]])


def _found(missing: Missing, piece: Piece) -> Found:
    cut_for = f"view {listed(piece.scope.views)}" if piece.scope.views else "no view"
    limit = f"“for: {_as_written(piece)}”" if piece.scope.wanted else f"“not for: {_as_written(piece)}”"
    return Found(
        missing.place,
        missing.step,
        f"{piece.name} is not cut for this view.",
        f"Limit {missing.step.called}, with {limit}, as the piece is; or cut {piece.name} for this view too.",
        (Related(f"{piece.name} is cut for {cut_for} only", piece.place),),
    )


def _as_written(piece: Piece) -> str:
    words = [word.value.strip() for word in piece.scope.wanted or piece.scope.unwanted]
    return words[0] if len(words) == 1 else f"[{', '.join(words)}]"
