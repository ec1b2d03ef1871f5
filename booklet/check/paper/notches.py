"""Whether the notches of two sides come together when these are sewn."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from booklet.check.paper.lengths import fittings_of, length_of, names_of
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.check.paper.sides import Pair
    from booklet.sew.bench import Bench, Edge
    from booklet.shape.measure import EdgeSizes, Measures, NotchAt

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
    """Two notches that should meet: how far each lies from the same end of the seam, in mm.

    edges: on which they are; the other None where the notch should meet the seam between two edges.
    """

    size: str
    fitting: str
    edges: tuple[Edge, Edge | None]
    places: tuple[float, float]

    @property
    def off(self) -> float:
        return abs(self.places[0] - self.places[1])


def groups_of(notches: Sequence[NotchAt], length: float) -> list[Group]:
    """Those of one edge, its ends' marks left out."""
    return [_group(notches, first, last) for first, last in _spans(notches, length)]


def _spans(notches: Sequence[NotchAt], length: float) -> list[tuple[int, int]]:
    """Each group by the numbers of its first and its last notch."""
    found: list[tuple[int, int]] = []
    for number, notch in enumerate(notches):
        if AT_END < notch.place < length - AT_END:
            if found and found[-1][1] == number - 1 and notch.place - notches[number - 1].place < TOGETHER:
                found[-1] = (found[-1][0], number)
            else:
                found.append((number, number))
    return found


def _group(notches: Sequence[NotchAt], first: int, last: int) -> Group:
    return Group(
        (notches[first].place + notches[last].place) / 2, tuple([mark.kind for mark in notches[first : last + 1]])
    )


def _in_sizes(row: EdgeSizes) -> list[list[Group]]:
    """In every size; grouped as in the first, where all have as many notches."""
    if len(set(map(len, row.notches))) > 1:
        return [groups_of(marks, length or 0.0) for marks, length in zip(row.notches, row.sewn, strict=True)]
    spans = _spans(row.notches[0], row.sewn[0] or 0.0)
    return [[_group(marks, *span) for span in spans] for marks in row.notches]


class _Edge(NamedTuple):
    edge: Edge
    lengths: tuple[float | None, ...]
    groups: list[list[Group]]


class Mark(NamedTuple):
    """A notch on a run, or the place where two of its edges meet (edge None). number: 2 for a double notch."""

    place: float
    edge: Edge | None
    number: int = 0


def _side(edges: list[Edge], bench: Bench, measures: Measures, fitting: str) -> list[_Edge] | None:
    found = []
    for edge in edges:
        lengths = length_of(edge, bench, measures, fitting)
        row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
        if lengths is None or row is None or None in lengths:
            return None
        found.append(_Edge(edge, lengths, _in_sizes(row)))
    return found


def notches_apart(pair: Pair, near: float, bench: Bench, measures: Measures) -> list[Apart]:
    """The worst pair of every size and fitting in which a notch of each side has no partner.

    near: what meets, in mm. Where a notch of one side alone has none, it marks something else, but for one that meets
    what it should in another size. What is gathered has its notches wherever the gathers leave them.
    """
    if pair.eased is not None and pair.eased.name == "gather":
        return []
    key = "notches", *(names_of(edges, bench, measures) for edges in (pair.longer, pair.shorter))
    if key not in measures.known:
        measures.known[key] = _notches_apart(pair, near, bench, measures)
    found: list[Apart] = measures.known[key]
    return found


def _notches_apart(pair: Pair, near: float, bench: Bench, measures: Measures) -> list[Apart]:
    found: list[Apart] = []
    sides = pair.longer, pair.shorter
    for fitting in fittings_of([*pair.longer, *pair.shorter], measures):
        marked = [any(_has_notches(edge, bench, measures, fitting) for edge in edges) for edges in sides]
        if all(marked) or (any(marked) and max(map(len, sides)) > 1):
            one, two = (_side(edges, bench, measures, fitting) for edges in sides)
            for first, second in _parts(one, two, near) if one and two else ():
                found += _in_fitting(first, second, near, fitting, measures)
    return found


def _parts(one: list[_Edge], two: list[_Edge], near: float) -> list[tuple[list[_Edge], list[_Edge]]]:
    """Edge by edge, where they follow each other alike; else the two runs as wholes, if they are not too many."""
    lengths = [[each.lengths[0] or 0.0 for each in side] for side in (one, two)]
    if len(one) == len(two) and all(abs(a - b) <= near for a, b in zip(*lengths, strict=True)):
        return [([first], [second]) for first, second in zip(one, two, strict=True)]
    return [(one, two)] if len(one) + len(two) <= MOST_EDGES else []


def _has_notches(edge: Edge, bench: Bench, measures: Measures, fitting: str) -> bool:
    """Besides those at its ends."""
    row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
    if row is None or row.sewn[0] is None:
        return False
    return any(AT_END < mark.place < (row.sewn[0] or 0.0) - AT_END for mark in row.notches[0])


def _in_fitting(one: list[_Edge], two: list[_Edge], near: float, fitting: str, measures: Measures) -> Iterator[Apart]:
    last = len(measures.sizes) - 1
    tried = sorted({0, last // 2, last})
    best, done = _likeliest(one, two, near, tried)
    each = [done[at] if at in done else _unmet(one, two, best, near, at) for at in range(last + 1)]
    for size, unmet in zip(measures.sizes, each, strict=True):
        if unmet is not None and (unmet.both or None in each):
            mark, other, whole, _ = unmet
            assert mark.edge is not None
            places = mark.place, other.place
            if mark.place > whole / 2:
                places = whole - mark.place, whole - other.place
            yield Apart(size, fitting, (mark.edge, other.edge), places)


Way = tuple[tuple[bool, ...], tuple[bool, ...]]


def _likeliest(
    one: list[_Edge], two: list[_Edge], near: float, tried: Sequence[int]
) -> tuple[Way, dict[int, _Unmet | None]]:
    """The way round in which the notches of some sizes meet best, and what does not meet in these."""
    best, least, found = None, math.inf, {}
    for way in _ways(one, two):
        off = _mixed(one, two, way)
        done: dict[int, _Unmet | None] = {}
        for size in tried:
            if off >= least:
                break
            done[size] = _unmet(one, two, way, near, size)
            off += min(100.0, _off(done[size]))
        if off < least:
            best, least, found = way, off, done
        if off == 0:
            break
    assert best is not None
    return best, found


class _Unmet(NamedTuple):
    """A notch without a partner, and the one that it should meet, or misses by least; both: neither has another."""

    mark: Mark
    other: Mark
    whole: float
    both: bool


def _ways(one: list[_Edge], two: list[_Edge]) -> Iterator[Way]:
    """Every edge from either end: which of its ends comes first round the garment is not known here."""
    number = len(one) + len(two)
    # Of two single edges, both turned round are as both not.
    for turned in itertools.product((False, True), repeat=number) if number > 2 else ((False, False), (False, True)):
        yield turned[: len(one)], turned[len(one) :]


def _off(unmet: _Unmet | None) -> float:
    return 0.0 if unmet is None else max(1.0, abs(unmet.mark.place - unmet.other.place))


def _unmet(one: list[_Edge], two: list[_Edge], way: Way, near: float, size: int) -> _Unmet | None:
    """The worst of a size, or None. A notch may also meet the seam between two edges of the other side.

    What is eased is eased between its notches: they are measured from the nearer end, but for a third of the ease.
    """
    second = _laid(two, way[1], size)
    first = _fitted(_laid(one, way[0], size), second.whole)
    reach = near + abs(first.whole - second.whole) / 3
    if len(first.places) == len(second.places) and all(
        -reach <= a - b <= reach for a, b in zip(first.places, second.places, strict=True)
    ):
        return None
    alone = [at for at, place in enumerate(first.places) if not _meets(place, second, reach)]
    others = [at for at, place in enumerate(second.places) if not _meets(place, first, reach)]
    if not alone and not others:
        return None
    mine, theirs = _marks(one, first, size), _marks(two, second, size)
    if alone and others:
        pairs = itertools.product((mine[at] for at in alone), (theirs[at] for at in others))
        a, b = min(pairs, key=lambda two: abs(two[0].place - two[1].place))
        return _Unmet(a, b, second.whole, True)
    mark, marks, joints = (mine[alone[0]], theirs, second.joints) if alone else (theirs[others[0]], mine, first.joints)
    partners = [*marks, *(Mark(place, None) for place in joints)]
    if not partners:
        return None
    return _Unmet(mark, min(partners, key=lambda other: abs(other.place - mark.place)), second.whole, False)


def _mixed(one: list[_Edge], two: list[_Edge], way: Way) -> float:
    """How unlikely a way is by its notches, in mm: a double one is meant to meet a double one."""
    second = _laid(two, way[1], 0)
    first = _fitted(_laid(one, way[0], 0), second.whole)
    theirs = _marks(two, second, 0)
    near = [
        (mark, min(theirs, key=lambda other: abs(other.place - mark.place))) for mark in _marks(one, first, 0) if theirs
    ]
    return 30.0 * sum(a.number != b.number and abs(a.place - b.place) < TOGETHER for a, b in near)


class _Laid(NamedTuple):
    """A run: the places of its notches one after another, those where its edges meet, and its length."""

    places: list[float]
    joints: list[float]
    whole: float


def _laid(side: list[_Edge], turned: tuple[bool, ...], size: int) -> _Laid:
    places: list[float] = []
    joints, gone = [], 0.0
    for each, back in zip(side, turned, strict=True):
        length = each.lengths[size] or 0.0
        end = gone + length
        places += [end - group[0] if back else gone + group[0] for group in each.groups[size]]
        gone = end
        joints.append(end)
    joints.pop()
    return _Laid(places, joints, gone)


def _fitted(laid: _Laid, whole: float) -> _Laid:
    """As far from the nearer end as before, on a line of another length."""
    more, half = whole - laid.whole, laid.whole / 2
    if abs(more) < 0.1:
        return laid
    places, joints = ([at + more if at > half else at for at in row] for row in laid[:2])
    return _Laid(places, joints, laid.whole)


def _marks(side: list[_Edge], laid: _Laid, size: int) -> list[Mark]:
    """Its places with the notches that lie there."""
    groups = [(each.edge, group) for each in side for group in each.groups[size]]
    return [Mark(place, edge, len(group.kinds)) for place, (edge, group) in zip(laid.places, groups, strict=True)]


def _meets(place: float, other: _Laid, reach: float) -> bool:
    for row in other[:2]:
        for at in row:
            if -reach <= place - at <= reach:
                return True
    return False
