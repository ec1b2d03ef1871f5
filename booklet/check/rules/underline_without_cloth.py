"""A piece is underlined, but it is not cut of a second cloth.

What it finds: `underline` on a part whose pieces are cut of no material but their own and interfacing, or not of the
one that `with` names.

Why it matters at the machine: the sewer has nothing to lay under the piece.

Wrong:
    steps:
      - {id: underline, title: Underline the front, work: [{underline: front}]}

Right:
    pieces:
      front:
        number: 1
        cut: {self: 1, lining: 1}
        edges: {side: {}, hem: {}}
    steps:
      - {id: underline, title: Underline the front, work: [{underline: front}]}

Source: common practice, no source: the underlining is cut by the same piece as the cloth.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.read.tree import Text
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("underline"):
        if act.broken:
            continue
        wanted: Text | None = act.entry.options.get("with")
        key = wanted.value.strip() if wanted else "lining"
        for name, part in zip((thing for thing in act.entry.things if not thing.edge), act.parts, strict=False):
            own = {cut.piece for cut in part.cuts}
            layers = [cut for cut in act.cuts if cut.piece in own and cut.called != cut.piece.name]
            if part.cuts and not layers:
                first = part.cuts[0]
                what = f"of {key}" if wanted else "of a second cloth"
                yield Found(
                    wanted.place if wanted else name.place,
                    act.step,
                    f"{name.written} can't be underlined: it is not cut {what}.",
                    f"Add “{key}: {first.number}” to the “cut:” of {first.piece.name}, or leave it out here.",
                )
