"""Whether the notches of two sides come together when these are sewn."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, NamedTuple

from booklet.check.paper.lengths import fittings_of, length_of
from booklet.shape.measure import NotchAt

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.check.paper.sides import Pair
    from booklet.sew.bench import Bench, Edge
    from booklet.shape.measure import Measures

# Notches nearer than this are one double or triple notch, in mm. Our choice: half an inch.
TOGETHER = 13.0
# A notch so near to an end of its edge marks that end, in mm. Our choice.
AT_END = 4.0
# So many edges on both sides are tried every way round. Our choice.
MOST_EDGES = 5


class Group(NamedTuple):
    """A single, double or triple notch. place: of its middle, along the edge, in mm."""

    place: float
    kinds: tuple[str, ...]


class Apart(NamedTuple):
    """Two notches that should meet: how far each lies from the same end of the seam, in mm."""

    size: str
    fitting: str
    edges: tuple[Edge, Edge]
    places: tuple[float, float]

    @property
    def off(self) -> float:
        return abs(self.places[0] - self.places[1])


def groups_of(notches: Sequence[NotchAt], length: float) -> list[Group]:
    """Those of one edge, its ends' marks left out."""
    found: list[list[NotchAt]] = []
    for notch in notches:
        if AT_END < notch.place < length - AT_END:
            if found and notch.place - found[-1][-1].place < TOGETHER:
                found[-1].append(notch)
            else:
                found.append([notch])
    return [Group((row[0].place + row[-1].place) / 2, tuple(mark.kind for mark in row)) for row in found]


class _Edge(NamedTuple):
    edge: Edge
    lengths: tuple[float | None, ...]
    groups: list[list[Group]]


Mark = tuple[float, "Edge"]


def _side(edges: list[Edge], bench: Bench, measures: Measures, fitting: str) -> list[_Edge] | None:
    found = []
    for edge in edges:
        lengths = length_of(edge, bench, measures, fitting)
        row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
        if lengths is None or row is None or None in lengths:
            return None
        each = [groups_of(marks, length or 0.0) for marks, length in zip(row.notches, lengths, strict=True)]
        found.append(_Edge(edge, lengths, each))
    return found


def notches_apart(pair: Pair, near: float, bench: Bench, measures: Measures) -> list[Apart]:
    """The worst pair of every size and fitting in which a notch of each side has no partner.

    near: what meets, in mm. Where a notch of one side alone has none, it marks something else. What is gathered has its
    notches wherever the gathers leave them.
    """
    if len(pair.longer) + len(pair.shorter) > MOST_EDGES or (pair.eased is not None and pair.eased.name == "gather"):
        return []
    found: list[Apart] = []
    sides = pair.longer, pair.shorter
    for fitting in fittings_of([*pair.longer, *pair.shorter], measures):
        if all(any(_has_notches(edge, bench, measures, fitting) for edge in edges) for edges in sides):
            one, two = (_side(edges, bench, measures, fitting) for edges in sides)
            if one and two:
                found += _in_fitting(one, two, near, fitting, measures)
    return found


def _has_notches(edge: Edge, bench: Bench, measures: Measures, fitting: str) -> bool:
    row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
    return row is not None and any(row.notches)


def _in_fitting(one: list[_Edge], two: list[_Edge], near: float, fitting: str, measures: Measures) -> Iterator[Apart]:
    last = len(measures.sizes) - 1
    tried = sorted({0, last // 2, last})
    best, least = None, math.inf
    for way in _ways(one, two):
        off = sum(min(100.0, _off(_unmet(one, two, way, near, size))) for size in tried)
        if off < least:
            best, least = way, off
        if off == 0:
            break
    assert best is not None
    for at, size in enumerate(measures.sizes):
        unmet = _unmet(one, two, best, near, at)
        if unmet is not None:
            (place, edge), (other, other_edge), whole = unmet
            if place > whole / 2:
                place, other = whole - place, whole - other
            yield Apart(size, fitting, (edge, other_edge), (place, other))


Way = tuple[tuple[bool, ...], tuple[bool, ...]]
Unmet = tuple[Mark, Mark, float]


def _ways(one: list[_Edge], two: list[_Edge]) -> Iterator[Way]:
    """Every edge from either end: which of its ends comes first round the garment is not known here."""
    number = len(one) + len(two)
    # Of two single edges, both turned round are as both not.
    for turned in itertools.product((False, True), repeat=number) if number > 2 else ((False, False), (False, True)):
        yield turned[: len(one)], turned[len(one) :]


def _off(unmet: Unmet | None) -> float:
    return 0.0 if unmet is None else max(1.0, abs(unmet[0][0] - unmet[1][0]))


def _unmet(one: list[_Edge], two: list[_Edge], way: Way, near: float, size: int) -> Unmet | None:
    """A notch of each side without a partner, the nearest two; and how long the seam is.

    A notch may also meet the seam between two edges of the other side.
    """
    first, second = _laid(one, way[0], size), _laid(two, way[1], size)
    reach = near + abs(first[2] - second[2])
    alone = [mark for mark in first[0] if not _meets(mark[0], second, reach)]
    others = [mark for mark in second[0] if not _meets(mark[0], first, reach)]
    if not alone or not others:
        return None
    a, b = min(itertools.product(alone, others), key=lambda two: abs(two[0][0] - two[1][0]))
    return a, b, first[2]


Laid = tuple[list[Mark], list[float], float]


def _laid(side: list[_Edge], turned: tuple[bool, ...], size: int) -> Laid:
    """The notches of a run one after another, the places where its edges meet, and its length."""
    marks: list[Mark] = []
    joints, gone = [], 0.0
    for each, back in zip(side, turned, strict=True):
        length = each.lengths[size] or 0.0
        marks += [(gone + (length - group.place if back else group.place), each.edge) for group in each.groups[size]]
        gone += length
        joints.append(gone)
    return marks, joints[:-1], gone


def _meets(place: float, other: Laid, reach: float) -> bool:
    return any(abs(place - mark) <= reach for mark, _ in other[0]) or any(abs(place - at) <= reach for at in other[1])
