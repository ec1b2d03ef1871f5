"""A row of staystitching lies outside the seam allowance, where it will show.

What it finds: `staystitch` at a distance that is as wide as the allowance of the edge, or wider. On the seam line
itself it is in order where the edge is only pressed under, as on a pocket.

Why it matters at the machine: the stitches can be seen on the finished garment, and have to be picked out of a seam.

Wrong:
    steps:
      - {id: hold, title: Staystitch, work: [{staystitch: front.neckline, at: 3/4 in}]}

Right:
    steps:
      - {id: hold, title: Staystitch, work: [{staystitch: front.neckline, at: 1/2 in}]}

Source: published: Guideline 11.135 Staystitching: 1/2 in from the cut edge on a 5/8 in seam.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn, beyond, limit, reaches, same, sewn_at
from booklet.check.words import listed
from booklet.length import House, Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("staystitch"):
        at = act.entry.measure("at")
        if at is None or beyond("most staystitch", at):
            continue
        shown = [edge for edge in as_drawn(act) if _shows(edge, at, bench.pattern.house)]
        if shown:
            yield _found(act, at, shown, bench.pattern.house)


def _shows(edge: Edge, at: Length, house: House) -> bool:
    line = sewn_at(edge)
    pressed_under = edge.closed is None or edge.closed.name not in ("sew", "zipper")
    return reaches(at, line, house) and not (pressed_under and same(at, line, house))


def _found(act: Act, at: Length, shown: list[Edge], house: House) -> Found:
    narrowest = min(sewn_at(edge) for edge in shown)
    inside = limit("staystitch inside seam", narrowest.metric)
    right = f"Staystitch at {narrowest - inside}" if narrowest > inside else f"Staystitch at less than {narrowest}"
    where = "on the seam line itself" if same(at, narrowest, house) else f"outside the allowance of {narrowest}"
    return Found(
        act.entry.place_of("at"),
        act.step,
        f"Staystitching {at} from the edge lies {where} on {listed(edge.called for edge in shown)}, and will show.",
        f"{right}, so that the seam covers it.",
    )
