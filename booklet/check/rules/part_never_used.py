"""A piece is cut for a view, and no step of the view touches it.

What it finds: a piece that no entry of `work` and no `uses` of the view names, directly or through a part; and a
piece's interfacing or lining that is never fused or sewn.

Why it matters at the machine: the sewer ends with a piece left over, and doesn't know which seam was missed.

Wrong:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}

Right:
    steps:
      - {id: fuse, title: Fuse the facing, work: [{fuse: [neck facing, collar]}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: pocket, title: Sew on the pocket, work: [{pocket: pocket, on: front}]}
      - {id: sleeves, title: Sew the sleeves, for: sleeves, work: [{sew: [sleeve.underarm, sleeve.underarm]}]}

Source: common practice, no source: every piece in the cutting list is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, CutPiece

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    if not bench.steps or bench.left_out:
        return  # What only an optional step sews is left over with it, as it should be.
    meant = _meant(bench)
    unused = [cut for cut in bench.cuts.values() if cut.touched is None and not {cut.called, cut.piece.name} & meant]
    whole = {cut.piece for cut in unused if cut.called == cut.piece.name}
    for cut in unused:
        if cut.called == cut.piece.name:
            yield _piece(bench, cut)
        elif cut.piece not in whole and cut.material in bench.pattern.materials:
            yield _material(bench, cut)


def _meant(bench: Bench) -> set[str]:
    """Pieces that a misspelt name most likely stands for: the writer is told of the name."""
    unknown = {missing.written.split(".")[0] for missing in bench.missing if missing.kind == "unknown part"}
    return {near for name in unknown if (near := nearest(name, bench.part_names))}


def _piece(bench: Bench, cut: CutPiece) -> Found:
    return Found(
        cut.piece.place,
        None,
        f"{cut.called} is cut for this view, but no step of the view sews it.",
        f"Add the step that sews {cut.called}, or limit the piece with “for:” to the views that need it.",
    )


def _material(bench: Bench, cut: CutPiece) -> Found:
    place = next(each.material.place for each in cut.piece.cuts if same_name(each.material.value) == cut.material)
    material = bench.pattern.materials.get(cut.material)
    fused = material is not None and material.kind == "interfacing"
    verb, entry = ("fuses", f"“fuse: {cut.piece.name}”") if fused else ("sews", f"a step that sews “{cut.called}”")
    return Found(
        place,
        None,
        f"{cut.called} is cut for this view, but no step of the view {verb} it.",
        f"Add {entry}, or take {cut.material} out of the “cut:” of {cut.piece.name}.",
    )
