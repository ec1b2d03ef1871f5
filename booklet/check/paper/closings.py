"""What an edge that is closed in the end lies on: the inner edge of a band on its outer one, a gap on its other side.

The entry names one edge alone. The other is the one between the same two ends: where the neighbours of the closed edge
are sewn to neighbours of another, on both sides, the two come to lie on each other.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.check.paper.lengths import Lengths, sides_of
from booklet.check.paper.sides import LEVEL, Pair, gives, lies_behind
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.read.tree import Text
    from booklet.sew.bench import Act, Bench, Edge
    from booklet.shape.measure import Measures

CLOSING = ("close", "slipstitch")
# Two edges of one piece are taken for the two sides of its fold only where they are nearly alike, as a share of the
# longer; otherwise they may be the two ends of a tube. Our choice: more than a draft is off.
LIKE = 0.1


@lru_cache(4)
def closings_of(bench: Bench, measures: Measures) -> list[Pair]:
    """Every edge that is closed on another whose length is known, as a pair of sides."""
    found = []
    for act in bench.of(*CLOSING):
        done: set[Edge] = set()
        for edge in act.edges:
            if act.broken or edge.excused or edge in done or edge.closed is not act:
                continue
            other = _partner(edge, act, bench)
            pair = other and _pair(edge, other, act, bench, measures)
            if pair:
                done |= {*pair.longer, *pair.shorter}
                found.append(pair)
    return found


def _partner(edge: Edge, act: Act, bench: Bench) -> Edge | None:
    """The edge on which one is closed, or None where that is not plain."""
    to: tuple[Text, ...] | None = act.entry.options.get("to")
    if to is not None:
        return _named(to, bench)
    sewn = [near for near in edge.neighbours if not near.spec.fold]
    if not sewn:
        return None
    across = [set(_across(near, act)) for near in sewn]
    joined = {edge, *sewn}.union(*across)
    between = [
        {far for end in ends for far in end.neighbours if not far.spec.fold and far not in joined} for ends in across
    ]
    found = [
        far
        for far in set.intersection(*between)
        if far.closed is not None and far.closed.time <= act.time and not _is_sewn_to(far, edge)
    ]
    if len(sewn) < len(edge.neighbours):
        found = [far for far in found if any(near.spec.fold for near in far.neighbours)]
    return found[0] if len(found) == 1 else None


def _is_sewn_to(far: Edge, edge: Edge) -> bool:
    """Whether it already lies on another edge of that piece."""
    return any(
        other.cut is edge.cut
        for seam in far.seams
        for layer in seam.layers
        if far not in layer.edges
        for other in layer.edges
    )


def _named(to: tuple[Text, ...], bench: Bench) -> Edge | None:
    """The one edge of a cut piece that `to` names; None for a part, or for several."""
    if len(to) != 1:
        return None
    part, _, name = to[0].value.rpartition(".")
    cut = bench.cuts.get(same_name(part))
    return cut.edges.get(same_name(name)) if cut is not None else None


def _across(near: Edge, act: Act) -> Iterator[Edge]:
    """What a neighbour is sewn to before: itself, where a piece is folded, or its own other copy."""
    for seam in near.seams:
        if seam.act.time <= act.time and not seam.act.broken:
            mine = [layer for layer in seam.layers if near in layer.edges]
            if len(mine) > 1:
                yield near
            for layer in seam.layers:
                if layer not in mine:
                    yield from layer.edges


def _pair(edge: Edge, other: Edge, act: Act, bench: Bench, measures: Measures) -> Pair | None:
    lengths = sides_of([edge], [other], bench, measures)
    if not lengths or (other.cut is edge.cut and any(row.off > LIKE * max(row.one, row.two) for row in lengths)):
        return None
    longer, shorter = edge, other
    if sum(row.one - row.two for row in lengths) < 0:
        longer, shorter = other, edge
        lengths = [Lengths(size, fitting, one, two) for size, fitting, two, one in lengths]
    place = other.closed.place if other.closed is not None else act.place
    places = (act.place, place) if longer is edge else (place, act.place)
    if all(abs(row.one - row.two) < LEVEL for row in lengths):
        lengths = []
    return Pair(
        act,
        [longer],
        [shorter],
        (longer.called, shorter.called),
        places,
        lengths,
        None,
        behind=lies_behind([shorter]) and not lies_behind([longer]),
        gives=gives([shorter], [longer], bench),
    )
