"""A piece is fused that no interfacing is cut for.

What it finds: `fuse` on a part of which no piece is cut from a material of `kind: interfacing`, or not from the one
under `with:`.

Why it matters at the machine: the sewer has nothing to fuse, for the cutting list says nothing of it.

Wrong:
    steps:
      - {id: fuse, title: Fuse the pocket, work: [{fuse: pocket}]}

Right:
    steps:
      - {id: fuse, title: Fuse the facing, work: [{fuse: neck facing}]}

Source: common practice, no source: the cutting list names every piece of every material.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.model.pattern import EdgeName, Pattern
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("fuse"):
        if act.broken:
            continue
        for name, part in zip((thing for thing in act.entry.things if not thing.edge), act.parts, strict=False):
            wanted: Text | None = act.entry.options.get("with")
            if not part.cuts or any(_of_unknown(bench.pattern, cut) for cut in part.cuts):
                continue
            if not any(_has(bench.pattern, cut, wanted) for cut in part.cuts):
                yield _found(bench.pattern, act, name, part.cuts, wanted)


def _of_unknown(pattern: Pattern, cut: CutPiece) -> bool:
    """Of a material that the pattern does not have, another rule speaks."""
    return any(same_name(each.material.value) not in pattern.materials for each in cut.piece.cuts)


def _has(pattern: Pattern, cut: CutPiece, wanted: Text | None) -> bool:
    """Whether the piece is cut from the interfacing too, or is itself a strip of it."""
    own = [cut.material] if cut.called == cut.piece.name else []
    keys = [same_name(each.material.value) for each in cut.piece.cuts] if cut.called == cut.piece.name else own
    if wanted is not None:
        return same_name(wanted.value) in keys
    return any(material.kind == "interfacing" for key in keys if (material := pattern.materials.get(key)))


def _found(pattern: Pattern, act: Act, name: EdgeName, cuts: list[CutPiece], wanted: Text | None) -> Found:
    first = cuts[0]
    if first.called != first.piece.name:
        return Found(
            name.place,
            act.step,
            f"“{name.written}” can't be fused to itself.",
            f"Name the piece that it is fused to: “fuse: {first.piece.name}”.",
        )
    usual = next((material.key for material in pattern.materials.values() if material.kind == "interfacing"), "fusible")
    key = wanted.value.strip() if wanted else usual
    what = f"of {key}" if wanted else "of interfacing"
    return Found(
        act.entry.place_of("with") if wanted else name.place,
        act.step,
        f"{name.written} can't be fused: it is not cut {what}.",
        f"Add “{key}: {first.number}” to the “cut:” of {first.piece.name}, or leave it out here.",
    )
