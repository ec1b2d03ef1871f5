"""The stitching of a hem or casing misses what is turned up.

What it finds: `hem` or `casing` with an `at:` that is wider than its last turn.

Why it matters at the machine: the row runs beside the fold, through one layer. The hem hangs loose, or the elastic
has no tunnel.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in], at: 7/8 in}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in], at: 5/8 in}]}

Source: common practice, no source: a hem is stitched close to its inner fold.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, in_system_of, limit, same, total
from booklet.finding import Related
from booklet.length import House, Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("hem", "casing"):
        at, turns = act.entry.measure("at"), act.entry.lengths("turns")
        if at is None or not turns or act.broken or any(beyond("most hem", each) for each in (at, *turns)):
            continue
        last = turns[-1]
        house = bench.pattern.house
        if at > last and not same(at, last, house) and not _holds_as_drawn(act, at, turns, house):
            inside = limit("staystitch inside seam", last.metric)
            mend = f"Write {last - inside} or less" if last > inside else f"Write less than {last}"
            yield Found(
                act.entry.place_of("at"),
                act.step,
                f"Stitching {at} from the fold misses the {act.name}, which is only {last} deep.",
                f"{mend}, or turn up more.",
                (Related(f"{last} is turned up here", act.entry.place_of("turns")),),
            )


def _holds_as_drawn(act: Act, at: Length, turns: Sequence[Length], house: House) -> bool:
    """Whether the turns are not what was drawn, of which another rule speaks, and the row would lie within those."""
    drawn = [edge.allowance() for edge in as_drawn(act)]
    if not drawn or same(whole := total(turns, drawn[0], house), drawn[0], house):
        return False
    last, row = in_system_of(turns[-1], whole, house), in_system_of(at, whole, house)
    return whole + row <= min(drawn) + last
