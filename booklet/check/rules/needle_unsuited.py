"""A machine needle is named that does not suit the main fabric.

What it finds: among the notions and tools, a needle whose point harms the main fabric's kind (universal, sharp or denim
for a knit; leather for cloth), or whose size is four or more away from what the cloths named under `suits` take (60 for
denim). Where another needle on the list suits, nothing is said.

Why it matters at the machine: a sharp point cuts the loops of a knit, which ladder in the wash; a fine needle breaks in
heavy cloth, and a thick one leaves holes in fine cloth.

Wrong:
    materials:
      self: {name: Main fabric, kind: knit}
      fusible: {name: Fusible interfacing, kind: interfacing}
      lining: {name: Lining, kind: lining}
    tools: [sewing machine, universal needle 80/12]

Right:
    materials:
      self: {name: Main fabric, kind: knit}
      fusible: {name: Fusible interfacing, kind: interfacing}
      lining: {name: Lining, kind: lining}
    tools: [sewing machine, ball-point needle 80/12]

Source: common practice, no source: knits take a ball-point or stretch needle, and the cloths of each size are those of
every maker's chart. Four sizes apart is our choice, so that only what is surely meant otherwise is found.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.needles import Needle, needles
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.model.pattern import Material, Pattern

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    main = pattern.materials.get("self")
    named = needles(pattern) if main is not None else []
    if main is None or not named:
        return
    kinds = {material.kind for material in pattern.materials.values()} & {"woven", "knit"}
    if len(kinds) == 1:
        yield from _points(main, named)
    yield from _sizes(main, named)


def _points(main: Material, named: list[Needle]) -> Iterator[Found]:
    rows = table("needle_points")
    of_leather = re.search(r"\b(?:leather|suede|vinyl)\b", main.suits.value.lower()) if main.suits else None
    suited = [point for point, row in rows.items() if main.kind in row.get("suits", ())]
    if of_leather or any(point in suited for needle in named for point in needle.points):
        return
    for needle in named:
        for point in needle.points:
            if main.kind in rows[point].get("unsuited", ()):
                yield Found(
                    needle.place,
                    None,
                    f"“{needle.written}” does not suit the main fabric, a {main.kind}: "
                    f"a {point} needle {rows[point]['harm']}.",
                    f"Name a {listed(suited, 'or')} needle.",
                )


def _sizes(main: Material, named: list[Needle]) -> Iterator[Found]:
    rows = list(table("needle_sizes").items())
    order = [nm for nm, _ in rows]
    words = main.suits.value.lower() if main.suits else ""
    cloths = {cloth: at for at, (_, row) in enumerate(rows) for cloth in row["cloths"] if _names(words, cloth)}
    wanted = [at for at, (_, row) in enumerate(rows) if any(cloth in row["cloths"] for cloth in cloths)]
    far = int(table("limits")["needle sizes apart"]["count"])
    sizes = [(needle, nm, order.index(nm)) for needle in named for nm, _ in needle.sizes if nm in order]
    if not wanted or any(abs(at - one) < far for _, _, at in sizes for one in wanted):
        return
    for needle, nm, at in sizes:
        best = [f"{rows[one][0]}/{rows[one][1]['us']}" for one in wanted]
        wrong = "thick" if at > max(wanted) else "fine"
        yield Found(
            needle.place,
            None,
            f"“{needle.written}”: size {nm} is too {wrong} for {listed(cloths)}.",
            f"For {listed(cloths)} the usual size is {listed(best, 'or')}.",
        )


def _names(words: str, cloth: str) -> bool:
    return cloth in words and re.search(rf"\b{cloth}s?\b", words) is not None
