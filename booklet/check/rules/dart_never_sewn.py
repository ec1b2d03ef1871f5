"""A dart, pleat or tuck of a piece is not sewn.

What it finds: a dart under a piece's `darts:` that no `dart` entry of the view sews, though the view works on the
piece; likewise under `pleats:` and `tucks:`.

Why it matters at the machine: the piece stays flat and too wide, and its edge is longer than the one that it should
meet.

Wrong:
    steps:
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Right:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Source: common practice, no source: the piece was drafted with the dart closed.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import DARTS
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench, CutPiece, Missing

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    if bench.left_out or any(_explains(missing) for missing in bench.missing):
        return
    for cut in bench.cuts.values():
        if cut.touched is None or cut.trusted or cut.called != cut.piece.name:
            continue
        for name, sewn in cut.darts.items():
            if sewn is None:
                yield _found(cut, name)


def _explains(missing: Missing) -> bool:
    """A `dart` entry that names no dart, or no part, is said to the writer already."""
    dart = missing.entry is not None and missing.entry.name in DARTS
    return dart and missing.kind in ("unknown dart", "unknown part", "not made")


def _found(cut: CutPiece, name: str) -> Found:
    dart = cut.piece.darts[name]
    assert cut.touched is not None
    return Found(
        dart.place,
        None,
        f"The {dart.name} of {cut.called} is never sewn in this view.",
        f"Add “{dart.kind}: {cut.called}.{dart.name}” before the seam that it runs into, or take the {dart.kind} "
        "out of the piece.",
        (Related(f"{cut.called} is first worked in {cut.touched.called}", cut.touched.place),),
    )
