"""The turns of a casing do not add up to the allowance drawn for it.

What it finds: `turns` beside `casing` whose sum is not the allowance of each of its edges.

Why it matters at the machine: the elastic does not fit into the casing, or the waist comes out too high or too low.

Wrong:
    steps:
      - {id: casing, title: Sew the casing, work: [{casing: front.hem, turns: [1/4 in, 1 in]}]}

Right:
    steps:
      - {id: casing, title: Sew the casing, work: [{casing: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: common practice, no source: a casing is a hem with room for what is threaded through it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.turns import turned
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    return turned(bench, "casing")
