"""A row of cloth amounts has another number of amounts than there are sizes.

What it finds: an entry of `amounts` that has neither one amount for each size nor a single one for all.

Why it matters at the machine: from the gap on, every amount stands under the wrong size, and the sewer buys too
little.

Wrong:
    materials:
      self: {name: Main fabric, kind: woven, amounts: {45 in: {A: [2 yd, 3 yd], B: 2 yd}}}
      fusible: {name: Fusible, kind: interfacing}
      lining: {name: Lining, kind: lining}

Right:
    materials:
      self: {name: Main fabric, kind: woven, amounts: {45 in: {A: [2 yd, 2 yd, 3 yd], B: 2 yd}}}
      fusible: {name: Fusible, kind: interfacing}
      lining: {name: Lining, kind: lining}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Pattern

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    sizes = len(pattern.sizes)
    for material in pattern.materials.values():
        for width, rows in material.amounts:
            for letters, amounts in rows:
                if not sizes or len(amounts) in (1, sizes):
                    continue
                whose = f" for view {listed(letters)}" if len(letters) < len(pattern.views) else ""
                has = "no amount" if not amounts else f"{len(amounts)} amounts"
                yield Found(
                    amounts[0].place if amounts else width.place,
                    None,
                    f"“{material.name}”, {width.length} wide, has {has}{whose}, and there "
                    f"{'is 1 size' if sizes == 1 else f'are {sizes} sizes'}.",
                    f"Write one amount a size ({listed(pattern.sizes)}), or a single one for all.",
                )
