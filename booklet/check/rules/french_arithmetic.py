"""The numbers of a French seam do not add up.

What it finds: `seam: french` whose `passes` are not two, do not add up to the allowance, or leave a `trim` that the
second pass can't enclose; and an allowance too narrow for two passes.

Why it matters at the machine: if the passes take more or less than the allowance, the garment changes its size at
every seam. If the trimmed edges are as wide as the second pass, they stick out of the seam.

Wrong:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: french, passes: [3/8 in, 3/8 in], trim: 1/8 in}]

Right:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: french, passes: [3/8 in, 1/4 in], trim: 1/8 in}]

Source: published: Oklahoma Coop. Ext. 4-H No. 810, Fabrics & Fashions: 3/8 in, trimmed close, then 1/4 in from the
fold.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import beyond, in_system_of, limit, reaches, same, sum_of, total
from booklet.finding import Place, Related
from booklet.length import Length
from booklet.sew.bench import Act, Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew"):
        seam = act.seam
        passes = act.entry.lengths("passes")
        if act.broken or seam is None or seam.construction != "french" or not passes or not seam.allowance:
            continue
        if beyond("most seam allowance", seam.allowance) or any(beyond("most seam allowance", each) for each in passes):
            continue
        yield from _passes(bench, act, seam.allowance, passes)
        if len(passes) == 2:
            yield from _trim(bench, act, passes)


def _passes(bench: Bench, act: Act, allowance: Length, passes: tuple[Length, ...]) -> Iterator[Found]:
    least = limit("least french", allowance.metric)
    house = bench.pattern.house
    if not reaches(allowance, least, house):
        yield _found(
            bench,
            act,
            "allowance",
            f"A French seam needs an allowance of {least} or more for its two passes; here it has {allowance}.",
            "Draw a wider allowance, or choose another seam.",
        )
        return
    if len(passes) != 2:
        one = "one pass" if len(passes) == 1 else f"{len(passes)} passes"
        yield _found(
            bench,
            act,
            "passes",
            f"A French seam is sewn in two passes, and this one has {one}.",
            f"Write “passes: [{_mended(bench, allowance, passes)}]”.",
        )
        return
    whole = total(passes, allowance, house)
    if not same(whole, allowance, house):
        yield _found(
            bench,
            act,
            "passes",
            f"The two passes take {sum_of(passes)} = {whole}, but the allowance is {allowance}.",
            f"Write passes that add up to {allowance}, such as [{_mended(bench, allowance, passes)}].",
        )


def _mended(bench: Bench, allowance: Length, passes: tuple[Length, ...]) -> str:
    """The first pass as written and the rest; where nothing would be left, the usual second pass."""
    first = in_system_of(passes[0], allowance, bench.pattern.house)
    usual = limit("usual second pass", allowance.metric)
    if first >= allowance or allowance - first < usual:
        first = allowance - usual
    return f"{first}, {allowance - first}"


def _trim(bench: Bench, act: Act, passes: tuple[Length, ...]) -> Iterator[Found]:
    trim = act.entry.measure("trim")
    if trim is None:
        return
    first, second = passes
    house = bench.pattern.house
    if reaches(trim, first, house):
        yield _found(
            bench,
            act,
            "trim",
            f"After a first pass {first} from the edge, trimming to {trim} cuts nothing off.",
            f"Write less than {min(first, second)}.",
        )
    elif reaches(trim, second, house):
        yield _found(
            bench,
            act,
            "trim",
            f"Edges trimmed to {trim} stick out of a second pass that is {second} from the fold.",
            f"Write less than {second}.",
        )


def _found(bench: Bench, act: Act, option: str, says: str, mend: str) -> Found:
    place: Place = act.entry.place_of(option)
    own = act.edges[0].spec.own_allowance
    related = (
        ()
        if act.entry.measure("allowance")
        else (Related("The allowance is drawn here", own.place if own else bench.pattern.allowance_place),)
    )
    return Found(place, act.step, says, mend, related)
