"""A step or a dart names an edge that the piece doesn't have.

What it finds: `PART.EDGE` in `work`, where no piece in the part has an edge of that name; and an edge under a dart's
`crosses` that is none of its piece.

Why it matters at the machine: the sewer can't tell which edges are meant to meet.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.sholder, back.shoulder]}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}

Source: common practice, no source: an edge has one name throughout a booklet.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Dart, Pattern, Piece
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    late = {same_name(missing.written.split(".")[0]) for missing in bench.missing if missing.kind == "made later"}
    for missing in once(bench, "unknown edge"):
        if missing.part is not None and missing.part.name not in late:
            yield _found(missing)


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for piece in pattern.pieces.values():
        for dart in piece.darts.values():
            for crossed in dart.crosses:
                if same_name(crossed.value) not in piece.edges:
                    yield _crossed(piece, dart, crossed)


def _found(missing: Missing) -> Found:
    part, _, edge = (word.strip() for word in missing.written.partition("."))
    near = nearest(edge, missing.known)
    return Found(
        missing.place,
        missing.step,
        f"No piece in {part} has an edge “{edge}”."
        if missing.part and missing.part.made
        else f"{part} has no edge “{edge}”.",
        f"Did you mean “{part}.{near}”?" if near else f"It has {listed(missing.known)}.",
    )


def _crossed(piece: Piece, dart: Dart, crossed: Text) -> Found:
    edges = [edge.name for edge in piece.edges.values()]
    near = nearest(crossed.value, edges)
    return Found(
        crossed.place,
        None,
        f"The {dart.name} of {piece.name} can't run into “{crossed.value.strip()}”: {piece.name} has no such edge.",
        f"Did you mean “{near}”?" if near else f"It has {listed(edges)}.",
    )
