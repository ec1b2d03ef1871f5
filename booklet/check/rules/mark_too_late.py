"""A dart, pleat or tuck is marked after it is sewn.

What it finds: `mark` on a dart, pleat or tuck that an earlier entry has sewn.

Why it matters at the machine: the mark is what the sewer folds and stitches by; afterwards it is of no use.

Wrong:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}
      - {id: mark, title: Mark the darts, work: [{mark: front.bust dart}]}

Right:
    steps:
      - {id: mark, title: Mark the darts, work: [{mark: front.bust dart}]}
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}

Source: common practice, no source: marks are transferred to the cut piece before it is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("mark"):
        late: dict[Act, str] = {}
        for name in act.entry.things:
            for cut in act.cuts if name.edge else ():
                sewn = cut.darts.get(name.edge)
                if sewn is not None and sewn.time < act.time:
                    late.setdefault(sewn, cut.piece.darts[name.edge].name)
        first = min(late, key=lambda sewn: sewn.time, default=None)
        if first is not None and not told(bench, act.step, first.step):
            yield Found(
                act.place,
                act.step,
                f"The {late[first]} is marked too late: it was sewn before, {where(first.step, act.step)}.",
                put_before("the marking", first.step, act.step),
                (Related("It is sewn here", first.place),),
                move=movable(act.step, first.step),
            )
