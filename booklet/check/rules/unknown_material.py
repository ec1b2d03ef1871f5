"""A piece is cut from a material that the pattern does not list.

What it finds: a name under `cut` of a piece, or after `with` of `fuse`, that does not stand under `materials`.

Why it matters at the machine: the sewer is told to cut from a cloth that was never bought.

Wrong:
    materials:
      self: {name: Main fabric, kind: woven}
      lining: {name: Lining, kind: lining}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    materials:
      self: {name: Main fabric, kind: woven}
      fusible: {name: Fusible interfacing, kind: interfacing}
      lining: {name: Lining, kind: lining}
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.model.pattern import Pattern, Step
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    unknown: dict[str, list[tuple[Text, str, Step | None]]] = {}
    for name, where, step in _named(pattern):
        if same_name(name.value) not in pattern.materials:
            unknown.setdefault(same_name(name.value), []).append((name, where, step))
    for uses in unknown.values():
        yield _found(pattern, uses)


def _named(pattern: Pattern) -> Iterator[tuple[Text, str, Step | None]]:
    for piece in pattern.pieces.values():
        for cut in piece.cuts:
            yield cut.material, f"from which {piece.name} is cut", None
    for step in pattern.steps:
        for entry in step.work:
            with_: Text | None = entry.options.get("with") if entry.name == "fuse" else None
            if with_ is not None:
                yield with_, "which is to be fused on", step


def _found(pattern: Pattern, uses: list[tuple[Text, str, Step | None]]) -> Found:
    name, where, step = uses[0]
    known = [material.key for material in pattern.materials.values()]
    near = nearest(name.value, known)
    more = f" (and {len(uses) - 1} more)" if len(uses) > 1 else ""
    return Found(
        name.place,
        step,
        f"There is no material “{name.value.strip()[:60]}”, {where}{more}.",
        f"Did you mean “{near}”?" if near else f"Add it to the materials, or use one of {listed(known)}.",
        tuple(Related("It is named here too", other.place) for other, _, _ in uses[1:]),
    )
