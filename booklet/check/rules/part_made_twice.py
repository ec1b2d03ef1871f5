"""Two steps make a part of the same name out of different pieces.

What it finds: `makes` with a name that an earlier step has given to something else. Working on the same part and
making it again is in order: that is how a body grows.

Why it matters at the machine: when a later step speaks of “the band”, the sewer has two of them.

Wrong:
    steps:
      - {id: a, title: Make the collar, work: [{sew: [collar.outer, collar.outer]}], makes: band}
      - {id: b, title: Make the facing, work: [{sew: [neck facing.ends, neck facing.ends]}], makes: band}

Right:
    steps:
      - {id: a, title: Make the collar, work: [{sew: [collar.outer, collar.outer]}], makes: band}
      - {id: b, title: Make the facing, work: [{sew: [neck facing.ends, neck facing.ends]}], makes: ring}

Source: common practice, no source: a part has one name throughout a booklet.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in bench.missing:
        part, maker = missing.part, missing.maker
        if missing.kind != "made twice" or part is None:
            continue
        pieces = listed(cut.called for cut in part.cuts)
        first = f"{maker.called}, has made one of {pieces}" if maker else "a piece has that name"
        yield Found(
            missing.place,
            missing.step,
            f"This step makes “{missing.written.strip()}”, but {first} already, and that is not worked on here.",
            "Give one of the two another name; or, if it is the same part, name it in the work of this step.",
            (Related("It was made here first", maker.place if maker else part.cuts[0].piece.place),),
        )
