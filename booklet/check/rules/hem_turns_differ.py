"""The turns of a hem do not add up to the hem allowance.

What it finds: `turns` beside `hem` whose sum is not the allowance drawn for each of its edges.

Why it matters at the machine: the hem comes out at another length than the chart says, and unlevel where pieces
differ.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 3/4 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: published: Utah State/Oregon State Ext. 4-H L-87, It's Fun to Sew: a narrow hem folds 1/4 in twice and uses
1/2 in.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.turns import turned
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    return turned(bench, "hem")
