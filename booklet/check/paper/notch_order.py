"""Whether a gathered or stretched seam has its notches on both sides, in one order: their places can't be compared."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.paper.lengths import copies, fittings_of, is_on_fold
from booklet.check.paper.notches import Group, groups_of
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.check.paper.sides import Pair
    from booklet.sew.bench import Bench, Edge
    from booklet.shape.measure import Measures


class Uneven(NamedTuple):
    """The notches of both sides in one size and fitting, the longer side's first; a double notch counts as one.

    turned: they are as many, but don't come in the same order, whichever end one begins at.
    """

    size: str
    fitting: str
    numbers: tuple[int, int]
    turned: bool

    @property
    def off(self) -> float:
        return float(abs(self.numbers[0] - self.numbers[1]))


def uneven_notches(pair: Pair, bench: Bench, measures: Measures) -> list[Uneven]:
    """Every size and fitting in which the flat side has notches that nothing on the full one meets, or the two come in
    another order.

    More notches on the full side than on the flat one may mark where the fullness begins and ends: they are told only
    where other sizes have as many as the flat one. A notch may also meet the seam between two edges.
    """
    gathered = pair.eased is not None and pair.eased.name == "gather"
    if not gathered and not (pair.gives and pair.lengths):
        return []
    if len({(copies(edge), is_on_fold(edge.cut)) for edge in (*pair.longer, *pair.shorter)}) > 1:
        return []
    rows: list[Uneven] = []
    for fitting in fittings_of([*pair.longer, *pair.shorter], measures):
        full, flat = (_groups(side, bench, measures, fitting) for side in (pair.longer, pair.shorter))
        for at, size in enumerate(measures.sizes):
            one, two = full[at], flat[at]
            if one is not None and two is not None:
                rows.append(_row(size, fitting, one, two, len(pair.longer) + len(pair.shorter) == 2))
    meeting = {row.numbers[0] == row.numbers[1] for row in rows}
    joints = len(pair.longer) - 1, len(pair.shorter) - 1
    return [
        row
        for row in rows
        if row.turned
        or (row.numbers[0] and row.numbers[1] > row.numbers[0] + joints[0])
        or (row.numbers[1] and row.numbers[0] > row.numbers[1] + joints[1] and True in meeting)
    ]


def _groups(side: Sequence[Edge], bench: Bench, measures: Measures, fitting: str) -> list[list[Group] | None]:
    """Of a run of edges, in every size; None where one is not drawn."""
    whole: list[list[Group] | None] = [[] for _ in measures.sizes]
    for edge in side:
        row = measures.edge(edge.cut.piece.name, edge.spec.name, bench.view.letter, fitting)
        if row is None:
            return [None for _ in measures.sizes]
        for at, (before, sewn) in enumerate(zip(whole, row.sewn, strict=True)):
            whole[at] = None if before is None or sewn is None else before + groups_of(row.notches[at], sewn)
    return whole


def _row(size: str, fitting: str, one: Sequence[Group], two: Sequence[Group], single: bool) -> Uneven:
    orders = [[len(group.kinds) for group in groups] for groups in (one, two)]
    turned = single and len(one) == len(two) and orders[0] not in (orders[1], orders[1][::-1])
    return Uneven(size, fitting, (len(one), len(two)), turned)
