"""How long what is sewn together is, on its seam lines, in every size and fitting."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import same_name
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.sew.bench import Bench, CutPiece, Edge
    from booklet.shape.measure import Measures


class Lengths(NamedTuple):
    """Two sides of a seam in one size and fitting, in mm."""

    size: str
    fitting: str
    one: float
    two: float

    @property
    def off(self) -> float:
        return abs(self.one - self.two)


def is_on_fold(cut: CutPiece) -> bool:
    return any(each.on_fold and same_name(each.material.value) == cut.material for each in cut.piece.cuts)


def copies(edge: Edge) -> int:
    """How many of an edge there are in the garment: both halves of a piece on the fold count."""
    number = edge.cut.number * (2 if is_on_fold(edge.cut) else 1)
    return max(1, number // 2) if edge.copy else number


def fittings_of(edges: Sequence[Edge], measures: Measures) -> tuple[str, ...]:
    """Those in which any of the pieces is drawn of its own; ("",) where none is."""
    return measures.fittings if any(measures.has_fittings(edge.cut.piece.name) for edge in edges) else ("",)


def length_of(edge: Edge, bench: Bench, measures: Measures, fitting: str) -> tuple[float | None, ...] | None:
    """One copy of it in every size; None where it is not drawn, or a dart, pleat or tuck in it is not."""
    if edge.spec.fold or any(
        not dart.drawn and any(same_name(name.value) == same_name(edge.spec.name) for name in dart.crosses)
        for dart in edge.cut.piece.darts.values()
    ):
        return None
    found = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
    return found and found.sewn


def run_of(edges: Sequence[Edge], bench: Bench, measures: Measures, fitting: str) -> list[float | None] | None:
    """All copies of a run of edges in every size."""
    whole: list[float | None] = [0.0] * len(measures.sizes)
    for edge in edges:
        lengths = length_of(edge, bench, measures, fitting)
        if lengths is None:
            return None
        times = copies(edge)
        whole = [
            None if before is None or more is None else before + more * times
            for before, more in zip(whole, lengths, strict=True)
        ]
    return whole


def sides_of(one: Sequence[Edge], two: Sequence[Edge], bench: Bench, measures: Measures) -> list[Lengths]:
    """Two sides in every size and fitting in which both are drawn; empty where one is not.

    Each as long as one seam is: where there are two of it, left and right, half of what both come to. A piece that is
    cut twice and sewn on once, or once and sewn to one of two, is taken as it fits best.
    """
    key = "sides", names_of(one, bench, measures), names_of(two, bench, measures)
    if key not in measures.known:
        measures.known[key] = _sides_of(one, two, bench, measures)
    found: list[Lengths] = measures.known[key]
    return found


def names_of(edges: Sequence[Edge], bench: Bench, measures: Measures) -> tuple[object, ...]:
    """What tells one run of edges from another, whatever the view."""
    view = bench.view.letter
    return tuple((edge.cut.called, edge.name, edge.copy, measures.trims(edge.cut.piece.name, view)) for edge in edges)


def _sides_of(one: Sequence[Edge], two: Sequence[Edge], bench: Bench, measures: Measures) -> list[Lengths]:
    each = []
    for fitting in fittings_of([*one, *two], measures):
        first, second = run_of(one, bench, measures, fitting), run_of(two, bench, measures, fitting)
        if first is None or second is None:
            return []
        each.append((fitting, first, second))
    shares = _to_one(one, two, [(a, b) for _, *runs in each for a, b in zip(*runs, strict=True) if a and b])
    return [
        Lengths(size, fitting, a * shares[0], b * shares[1])
        for fitting, first, second in each
        for size, a, b in zip(measures.sizes, first, second, strict=True)
        if a is not None and b is not None
    ]


def _to_one(one: Sequence[Edge], two: Sequence[Edge], found: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """By what both sides are to be multiplied, so that each is as long as one seam of what may be several."""
    ways = {(copies(edge), is_on_fold(edge.cut)) for edge in (*one, *two)}
    times = [(1.0, 1.0)]
    if len(ways) > 1:
        times += [(0.5, 1.0), (1.0, 0.5), (0.25, 1.0), (1.0, 0.25)]
    best = times[0]
    if len(times) > 1:
        best = min(times, key=lambda each: sum(abs(a * each[0] - b * each[1]) for a, b in found))
    least = min(copies(edge) * best[at] for at, side in enumerate((one, two)) for edge in side)
    share = 1 / least if least > 1 else 1.0
    return best[0] * share, best[1] * share
