"""A view cuts a material and is not told how much of it to buy.

What it finds: a material that has `amounts`, but none for a view which cuts pieces from it.

Why it matters at the machine: the sewer of that view stands in the shop without a number.

Wrong:
    materials:
      self: {name: Main fabric, kind: woven, amounts: {45 in: {A: 2 yd}}}
      fusible: {name: Fusible, kind: interfacing}
      lining: {name: Lining, kind: lining}

Right:
    materials:
      self: {name: Main fabric, kind: woven, amounts: {45 in: {A: 2 yd, B: 2 1/4 yd}}}
      fusible: {name: Fusible, kind: interfacing}
      lining: {name: Lining, kind: lining}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Pattern
from booklet.read.tree import same_name

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for key, material in pattern.materials.items():
        if not material.amounts:
            continue
        pieces = [
            piece
            for piece in pattern.pieces.values()
            if any(same_name(cut.material.value) == key for cut in piece.cuts)
        ]
        given = {letter for _, rows in material.amounts for letters, _ in rows for letter in letters}
        without = [letter for letter in pattern.views if letter not in given
                   and any(letter in piece.scope.views for piece in pieces)]  # fmt: skip
        if without:
            cut = [piece for piece in pieces if set(piece.scope.views) & set(without)]
            yield Found(
                material.place,
                None,
                f"View {listed(without)} {'cuts' if len(without) == 1 else 'cut'} "
                f"{listed(piece.name for piece in cut)} from “{material.name}”, "
                f"and no amount is given for {'it' if len(without) == 1 else 'them'}.",
                f"Add an amount for {listed(without)} under “amounts”.",
                (Related(f"{cut[0].name} is cut from it", cut[0].place),),
            )
