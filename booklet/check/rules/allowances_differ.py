"""Edges that are sewn together are drawn with different allowances.

What it finds: a seam whose sides have different seam allowances as drawn, where the entry does not say at which
allowance it is sewn. Runs of edges that change their allowance together, each side alike, are in order.

Why it matters at the machine: the sewer lays cut edge on cut edge. The stitching then misses the seam line of one
piece, and the garment comes out too wide or too narrow.

Wrong:
    steps:
      - {id: join, title: Join the pocket, work: [{sew: [front.shoulder, pocket.sides]}]}

Right:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}

Source: common practice, no source: edges that are sewn together have one allowance.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.numbers import as_drawn
from booklet.check.words import listed
from booklet.finding import Place, Related
from booklet.length import Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("sew"):
        if act.broken or act.seam is None or act.entry.measure("allowance"):
            continue
        sides = [{edge.allowance() for edge in side if not edge.excused} for side in act.sides]
        widths = set().union(*sides)
        if any(side != sides[0] for side in sides) and all(widths):
            yield _found(bench, act)


def _found(bench: Bench, act: Act) -> Found:
    drawn: dict[Length, list[Edge]] = {}
    for edge in as_drawn(act):
        drawn.setdefault(edge.allowance(), []).append(edge)
    parts = [f"{width} on {listed(edge.called for edge in edges)}" for width, edges in drawn.items()]
    rare = min(drawn, key=lambda width: len(drawn[width]))
    return Found(
        _named(act, drawn[rare][0]),
        act.step,
        f"The edges sewn together here are drawn with different allowances: {', but '.join(parts)}.",
        "Draw them alike, or write “allowance:” in this entry if they are to be sewn at one distance all the same.",
        tuple(
            Related(f"{edges[0].called} is drawn with {width} here", _drawn_at(bench, edges[0]))
            for width, edges in drawn.items()
        ),
    )


def _drawn_at(bench: Bench, edge: Edge) -> Place:
    own = edge.spec.own_allowance
    return own.place if own else bench.pattern.allowance_place


def _named(act: Act, edge: Edge) -> Place:
    """The name in the entry that means this edge."""
    for names, edges in zip(act.entry.sides, act.sides, strict=False):
        if edge in edges:
            return next((name.place for name in names if name.edge == edge.name), names[0].place)
    return act.place
