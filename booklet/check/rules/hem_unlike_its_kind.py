"""A hem is not what its kind says.

What it finds: `kind:` beside `hem` with another number of turns than that kind is turned, or with turns that are wider
than it ever is; and a faced hem that does not say with what.

Why it matters at the machine: the sewer turns a rolled hem by half an inch, or leaves the raw edge of a double hem
outside.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, kind: narrow, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, kind: double, turns: [1/2 in, 1/2 in]}]}

Source: published: Alberta distance learning, Sewing: a narrow folded hem takes 1.5 cm or less, a rolled one 3 mm a
turn; Utah State/Oregon State Ext. 4-H L-87: a narrow hem folds 1/4 in twice.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from booklet.check.found import Found
from booklet.check.numbers import same, sum_of, total
from booklet.craft.load import kinds
from booklet.length import Length, parse
from booklet.read.tree import Text
from booklet.sew.bench import Act, Bench

LEVEL = "error"
TIMES = {0: "not turned", 1: "turned once", 2: "turned twice"}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("hem"):
        kind: Text | None = act.entry.options.get("kind")
        if kind is None:
            continue
        row, turns = kinds("hem")[kind.value], act.entry.lengths("turns")
        allowed = row.get("turns", "0").split(" or ")
        if turns and str(len(turns)) not in allowed:
            yield _times(act, kind.value, int(allowed[-1]), turns)
        elif turns and "most" in row:
            yield from _width(bench, act, kind.value, row["most"], turns)
        elif "with" in row and "with" not in act.entry.options:
            yield Found(
                kind.place,
                act.step,
                f"A {kind.value} hem needs a piece that is sewn to it, and none is named.",
                "Name it, as in “with: hem facing”; or sew the facing on with “sew:” instead.",
            )


def _times(act: Act, kind: str, times: int, turns: tuple[Length, ...]) -> Found:
    is_turned = TIMES.get(len(turns), f"turned {len(turns)} times")
    other = [name for name in ("single", "double") if kinds("hem")[name]["turns"] == str(len(turns))]
    mend = f"Write “kind: {other[0]}”" if other else "Write as many turns"
    return Found(
        act.entry.place_of("turns"),
        act.step,
        f"A {kind} hem is {TIMES[times]}, and this one is {is_turned}.",
        f"{mend}, or {'leave “turns:” out' if not times else f'turn it {TIMES[times].split()[-1]}'}.",
    )


def _width(bench: Bench, act: Act, kind: str, rows: dict[str, Any], turns: tuple[Length, ...]) -> Iterator[Found]:
    most = parse(rows["metric" if turns[0].metric else "inch"])
    whole = total(turns, most, bench.pattern.house)
    if whole > most and not same(whole, most, bench.pattern.house):
        takes = f"{sum_of(turns)} = {whole}" if len(turns) > 1 else str(whole)
        yield Found(
            act.entry.place_of("turns"),
            act.step,
            f"A {kind} hem takes {most} at most, and this one takes {takes}.",
            f"Turn it by less, or write “kind: {'double' if len(turns) == 2 else 'single'}”.",
        )
