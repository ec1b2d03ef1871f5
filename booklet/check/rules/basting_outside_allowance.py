"""Basting lies outside the seam that should cover it.

What it finds: `baste` at a distance that is as wide as the allowance at which the edge is sewn in the end, or wider.
Before a zipper, basting on the seam line itself is in order.

Why it matters at the machine: the seam does not cover the basting. It shows, or is caught in the seam and won't come
out.

Wrong:
    steps:
      - {id: hold, title: Baste the collar, work: [{baste: [front.neckline, collar.neck], at: 3/4 in}]}

Right:
    steps:
      - {id: hold, title: Baste the collar, work: [{baste: [front.neckline, collar.neck], at: 1/2 in}]}

Source: common practice, no source: a collar is basted at 3/8 in, so that the 5/8 in seam covers it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, limit, reaches, same, sewn_at
from booklet.check.words import listed
from booklet.finding import Related
from booklet.length import House, Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act in bench.of("baste"):
        at = act.entry.measure("at")
        if at is None or act.broken or beyond("most staystitch", at):
            continue
        shown = [edge for edge in as_drawn(act) if reaches(at, sewn_at(edge), house)
                 and not (same(at, sewn_at(edge), house) and _by_zipper(edge))]  # fmt: skip
        if shown:
            yield _found(act, at, shown, house)


def _by_zipper(edge: Edge) -> bool:
    return edge.closed is not None and edge.closed.name == "zipper"


def _found(act: Act, at: Length, shown: list[Edge], house: House) -> Found:
    narrowest = min(sewn_at(edge) for edge in shown)
    inside = limit("staystitch inside seam", narrowest.metric)
    right = f"Baste at {narrowest - inside} or less" if narrowest > inside else f"Baste at less than {narrowest}"
    on_line = same(at, narrowest, house)
    where = (
        "on the seam line itself, where it is caught,"
        if on_line
        else f"outside the seam at {narrowest} that is to cover it,"
    )
    covering = next((edge.closed for edge in shown if edge.closed is not None and edge.closed.seam), None)
    return Found(
        act.entry.place_of("at"),
        act.step,
        f"Basting {at} from the edge lies {where} on {listed(edge.called for edge in shown)}.",
        f"{right}.",
        (Related(f"The seam is sewn in {covering.step.called}", covering.place),) if covering else (),
    )
