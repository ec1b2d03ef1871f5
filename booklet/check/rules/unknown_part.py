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
    by_name: dict[str, list[Missing]] = {}
    for missing in once(bench, "unknown part", by_part=True):
        by_name.setdefault(_both_copies(missing.written.split(".")[0]), []).append(missing)
    for uses in by_name.values():
        yield _of_other_material(bench, uses[0]) or _found(bench, uses)


def _both_copies(written: str) -> str:
    """The name that stands for the left and the right copy together."""
    return same_name(written).removeprefix("left ").removeprefix("right ")


def _found(bench: Bench, uses: list[Missing]) -> Found:
    """One finding for a name, however many steps speak of it: the slip may be where the part is made."""
    first = uses[0]
    name = first.written.split(".")[0].strip()
    near = nearest(name, first.known)
    makers = bench.made_anywhere.get(same_name(near)) if near else None
    it = _both_copies(name)
    made = f"If a step makes it, write “makes: {it}” there."
    mend = f"Did you mean “{near}”?" if near else f"{made} The pieces and parts are {listed(first.known)}."
    if near and not makers and len({use.step.id for use in uses}) + len(uses) > 2:
        mend = f"Did you mean “{near}”? {made}"
    if makers and len(uses) > 1:
        mend = f"Write “makes: {name}” in {makers[0].called}, or “{near}” in each of them."
        if near and _is_used(bench, same_name(near)):
            mend = f"Did you mean “{near}”, in each of them?"
    steps = len({use.step.id for use in uses})
    more = ""
    if steps > 1:
        more = " One more step speaks of it." if steps == 2 else f" {steps - 1} more steps speak of it."
    return Found(
        first.place,
        first.step,
        f"“{name}” is no piece of this pattern, and no step makes it.{more}",
        mend,
        tuple(Related("It is named here too", use.place) for use in uses[1:]),
    )


def _is_used(bench: Bench, name: str) -> bool:
    return any(
        name
        in [thing.part for entry in step.work for thing in entry.things] + [same_name(use.value) for use in step.uses]
        for step in bench.steps
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
