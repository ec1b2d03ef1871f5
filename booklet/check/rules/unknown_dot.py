"""A pocket or a buttonhole is placed on a dot that the outline does not have.

What it finds: `dots` of a `pocket` or a `buttonhole` that are no dots of the piece in the file of outlines, in every
size. `notchbook edges` draws the dots of each piece with their numbers.

Why it matters at the machine: the figure leaves the pocket out, or draws it somewhere else.

Wrong:
    outlines: pieces.svg
    pieces:
      dotted panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      patch: {number: 2, cut: {self: 1}, edges: {top: {}, left: {}, bottom: {}, right: {}}}
    steps:
      - {id: pocket, title: Sew on the patch, work: [{pocket: patch, on: dotted panel, dots: [d1, d3]}]}

Right:
    outlines: pieces.svg
    pieces:
      dotted panel: {number: 1, cut: {self: 2}, edges: {top: {}, side: {}, hem: {}, centre: {}}}
      patch: {number: 2, cut: {self: 1}, edges: {top: {}, left: {}, bottom: {}, right: {}}}
    steps:
      - {id: pocket, title: Sew on the patch, work: [{pocket: patch, on: dotted panel, dots: [d1, d2]}]}

Source: our choice: dots have numbers in the order in which the file has them.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Piece
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench
from booklet.shape.measure import Measures

LEVEL = "warning"


def find_measured(bench: Bench, measures: Measures) -> Iterator[Found]:
    for act in bench.of("pocket", "buttonhole"):
        names: tuple[Text, ...] = act.entry.options.get("dots", ())
        piece = _marked(act, bench) if names and not act.broken else None
        if piece is None or (number := measures.dots.get(same_name(piece.name))) is None:
            continue
        known = [f"d{at}" for at in range(1, number + 1)]
        for name in names:
            if name.value.strip() not in known:
                has = f"has {listed(known)}" if known else "has no dots"
                yield Found(
                    name.place,
                    act.step,
                    f"{piece.name} has no dot “{name.value.strip()}”: its outline {has}.",
                    "Look for its number in the picture that “notchbook edges” makes, or mark the dot in the outline."
                    if known
                    else "Mark the dot in the outline, or leave “dots” out.",
                )


def _marked(act: Act, bench: Bench) -> Piece | None:
    """The piece on which the dots lie: what the pocket is sewn on, or that of the buttonhole's edge."""
    on = act.entry.options.get("on")
    if act.name == "pocket" and on is not None:
        return bench.pattern.pieces.get(same_name(on.value.split(".")[0]))
    return act.edges[0].cut.piece if act.name == "buttonhole" and act.edges else None
