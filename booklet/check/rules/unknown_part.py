"""A step names a part that the pattern doesn't have.

What it finds: a name in `work` or `uses` that is no piece of the pattern, and that no step makes.

Why it matters at the machine: the sewer looks for a piece that isn't there.

Wrong:
    steps:
      - {id: fuse, title: Fuse the facing, work: [{fuse: neck faceing}]}

Right:
    steps:
      - {id: fuse, title: Fuse the facing, work: [{fuse: neck facing}]}

Source: common practice, no source: a piece has one name throughout a booklet.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import once
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for missing in once(bench, "unknown part", by_part=True):
        yield _of_other_material(bench, missing) or _found(missing)


def _found(missing: Missing) -> Found:
    name = missing.written.split(".")[0].strip()
    near = nearest(name, missing.known)
    return Found(
        missing.place,
        missing.step,
        f"“{name}” is no piece of this pattern, and no step makes it.",
        f"Did you mean “{near}”?" if near else f"The pieces and parts are {listed(missing.known)}.",
    )


def _of_other_material(bench: Bench, missing: Missing) -> Found | None:
    """`collar in lining`, where there is a collar and it is cut of something else."""
    name, _, material = missing.written.split(".")[0].partition(" in ")
    piece = bench.pattern.pieces.get(same_name(name))
    if piece is None or not material:
        return None
    cut_of = listed(cut.material.value.strip() for cut in piece.cuts)
    return Found(
        missing.place,
        missing.step,
        f"{piece.name} is cut of {cut_of}, not of {material.strip()}.",
        f"Add “{material.strip()}” to the “cut:” of {piece.name}, or name the material that is meant.",
        (Related(f"{piece.name} stands here", piece.place),),
    )
