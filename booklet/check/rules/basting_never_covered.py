"""Basting is never covered by a seam.

What it finds: two edges that are basted together, one of which lies in no seam, hem or closing when the last step is
done.

Why it matters at the machine: basting only holds until the seam is sewn. Left as it is, it pulls out in wear.

Wrong:
    steps:
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}

Right:
    steps:
      - {id: baste, title: Baste the facing, work: [{baste: [front.neckline, neck facing.neckline], at: 3/8 in}]}
      - {id: sew, title: Sew the facing, work: [{sew: [front.neckline, neck facing.neckline]}]}

Source: common practice, no source: a basted collar lies at 3/8 in, so that the 5/8 in seam of the facing covers it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for basting in bench.bastings:
        bare = [edge for edge in basting.edges if edge.closed is None and not edge.excused]
        others = [edge.closed.step for edge in basting.edges if edge.closed]
        if bare and not basting.act.broken and not told(bench, basting.act.step, *others):
            are = "are" if len(bare) > 1 else "is"
            yield Found(
                basting.act.place,
                basting.act.step,
                f"{listed(edge.called for edge in bare)} {are} basted here, and no seam covers the basting.",
                "Add the seam that takes these edges, or sew them here instead of basting.",
            )
