"""A strip is cut too narrow for what it must go round.

What it finds: `strip:`, the cut width, beside `bind`, `pipe` or a seam that uses one. A binding lies inside, outside
and under the edge, so it takes three times its finished `width`, and four where it is turned under on both sides. The
strip under a slot seam reaches past both rows. A piping strip takes the allowance twice, and the cord.

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

Source: our choice: the least that plane geometry allows. The usual numbers pass: for a Hong Kong finish, the allowance
and 1/4 in, sewn at 1/8 in; for a double binding, four times its width.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import in_system_of, same
from booklet.length import Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"
# By operation or construction: how many times its width or its allowance a strip must be wide, and why.
TIMES = {
    "bind": (3, "width", "it lies inside, outside and under the edge"),
    "bound": (3, "width", "it lies inside, outside and under the edge"),
    "hong kong": (3, "width", "it lies inside, outside and under the edge"),
    "slot": (2, "width", "both rows must catch it"),
    "pipe": (2, "allowance", "both its halves lie in the allowance, and the cord in the fold"),
    "piped": (2, "allowance", "both its halves lie in the allowance, and the cord in the fold"),
}


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("bind", "pipe", "sew"):
        strip = act.entry.measure("strip")
        kind = act.seam.construction if act.seam is not None else act.name
        if strip is None or kind not in TIMES or not act.edges:
            continue
        times, of, why = TIMES[kind]
        width = act.entry.measure("width") if of == "width" else _allowance(act)
        if width:
            yield from _narrow(bench, act, strip, width, times, of, why)


def _allowance(act: Act) -> Length:
    return act.seam.allowance if act.seam is not None else act.edges[0].allowance()


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
