"""A strip is cut too narrow for what it must go round.

What it finds: `strip:`, the cut width, beside `bind`, `pipe` or a seam that uses one. A binding lies inside, outside
and under the edge, so it takes three times its finished `width`, and four where it is turned under on both sides. The
strip under a slot seam reaches past both rows. A piping strip takes the allowance twice, and three times the thickness
of its `cord`, where that is said.

Why it matters at the machine: the strip does not reach. By then it is cut, and often so is the last of the cloth.

Wrong:
    steps:
      - id: bind
        title: Bind the neck
        work: [{bind: front.neckline, with: neck facing, width: 1/2 in, strip: 1 in}]

Right:
    steps:
      - id: bind
        title: Bind the neck
        work: [{bind: front.neckline, with: neck facing, width: 1/2 in, strip: 2 in}]

Source: our choice: the least that plane geometry allows; round a cord three times its thickness, common practice. The
usual numbers pass: for a Hong Kong finish, the allowance and 1/4 in, sewn at 1/8 in; for a double binding, four times
its width.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, in_system_of, limit, same
from booklet.craft.load import table
from booklet.length import Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"
PIPING = "both its halves lie in the allowance, and the cord in the fold"
# By operation or construction: how many times its width or its allowance a strip must be wide, and why.
TIMES = {
    "bind": (3, "width", "it lies inside, outside and under the edge"),
    "bound": (3, "width", "it lies inside, outside and under the edge"),
    "hong kong": (3, "width", "it lies inside, outside and under the edge"),
    "slot": (2, "width", "both rows must catch it"),
    "pipe": (2, "allowance", PIPING),
    "piped": (2, "allowance", PIPING),
}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("bind", "pipe", "sew"):
        strip = act.entry.measure("strip")
        kind = act.seam.construction if act.seam is not None else act.name
        if strip is None or kind not in TIMES or not act.edges:
            continue
        times, of, why = TIMES[kind]
        width = act.entry.measure("width") if of == "width" else _allowance(act)
        cord = act.entry.measure("cord") if of == "allowance" else None
        if width and cord:
            yield from _round_cord(bench, act, strip, width, cord)
        elif width:
            yield from _narrow(bench, act, strip, width, times, of, why)


def _allowance(act: Act) -> Length:
    return act.seam.allowance if act.seam is not None else act.edges[0].allowance()


def _round_cord(bench: Bench, act: Act, strip: Length, width: Length, cord: Length) -> Iterator[Found]:
    """What is a little short of the cut edges still holds the cord."""
    width, cord = (in_system_of(each, strip, bench.pattern.house) for each in (width, cord))
    least = width + width + cord * int(table("limits")["round the cord"]["times"])
    if beyond("most cord", cord) or strip >= least - limit("strip short of the edge", strip.metric):
        return
    yield Found(
        act.entry.place_of("strip"),
        act.step,
        f"The strip is cut {strip} wide, and needs {least}: twice the allowance, and {least - width - width} to go "
        "round the cord.",
        f"Cut it {least} wide or wider, or take a thinner cord.",
    )


def _narrow(bench: Bench, act: Act, strip: Length, width: Length, times: int, of: str, why: str) -> Iterator[Found]:
    width = in_system_of(width, strip, bench.pattern.house)
    least = Length(width.amount * times, width.unit)
    if strip < least and not same(strip, least, bench.pattern.house):
        word = {2: "twice", 3: "three times"}[times]
        yield Found(
            act.entry.place_of("strip"),
            act.step,
            f"The strip is cut {strip} wide, and needs {word} the {of} at least, {least}: {why}.",
            f"Cut it {least} wide or wider{', or write a smaller width' if of == 'width' else ''}.",
        )
