"""Which seams lie out of reach, inside a part that has been turned right side out?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.acts import handlings, told

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam


class Turned:
    """The turnings of one view, by what they turned.

    Turning a garment hides nothing: a hand still gets in. A seam is hidden where it is made `enclosed`; where it joins
    all pieces of the part and each has one open edge at most, as a collar; and in a bag that was turned through a gap.
    """

    def __init__(self, bench: Bench) -> None:
        self._by_cut = handlings(bench, "turn")
        self._bags: dict[int, bool] = {}

    def away(self, seam: Seam, before: int) -> Act | None:
        """The act that turned the seam out of reach between its sewing and a time, or None."""
        for act in self._by_cut.get(seam.edges[0].cut, ()):
            if seam.act.time < act.time < before and self.hides(act, seam):
                return act
        return None

    def hides(self, act: Act, seam: Seam) -> bool:
        mine = {edge.cut for edge in seam.edges}
        if not mine <= set(act.cuts):
            return False
        return seam.construction == "enclosed" or (whole(act, seam) and _nearly_closed(act)) or self._is_bag(act)

    def _is_bag(self, act: Act) -> bool:
        if act.time not in self._bags:
            self._bags[act.time] = _is_bag(act)
        return self._bags[act.time]


def sewn_before(cut: CutPiece, time: int) -> bool:
    """Whether any edge of a piece was sewn before a time, as far as can be told."""
    closed = (edge.closed for edge in cut.edges.values())
    return cut.trusted or any(act.time < time and act.name != "fuse" for act in closed if act)


def too_early(bench: Bench) -> list[Act]:
    """The turnings of which the writer is told that they come before anything is sewn."""
    return [
        act
        for act in bench.of("turn")
        if not act.broken and (told(bench, act.step) or not any(sewn_before(cut, act.time) for cut in act.cuts))
    ]


def last_seam(cuts: Iterable[CutPiece], time: int) -> Seam | None:
    """The last seam before a time in which any of some cut pieces lies."""
    seams = (seam for cut in cuts for edge in cut.edges.values() for seam in edge.seams if seam.act.time < time)
    return max(seams, key=lambda seam: seam.act.time, default=None)


def whole(act: Act, seam: Seam) -> bool:
    """Whether the seam joins every piece of what was turned. Interfacing goes with its piece."""
    return {edge.cut.piece for edge in seam.edges} == {cut.piece for cut in act.cuts}


def _nearly_closed(act: Act) -> bool:
    """Whether each piece has at most one edge that is still open when it is turned."""
    open_edges: dict[CutPiece, int] = {}
    for edge in _edges(act.cuts):
        if edge.closed is None or edge.closed.time > act.time:
            open_edges[edge.cut] = open_edges.get(edge.cut, 0) + 1
    return all(count < 2 for count in open_edges.values())


def _is_bag(act: Act) -> bool:
    """All round closed, but for a gap that is closed later, by `close`."""
    gaps = 0
    for edge in _edges(act.cuts):
        if edge.closed is None or (edge.closed.time > act.time and edge.closed.name != "close"):
            return False
        gaps += edge.closed.time > act.time
    return gaps > 0


def _edges(cuts: list[CutPiece]) -> list[Edge]:
    return [edge for cut in cuts for edge in cut.edges.values() if not edge.spec.fold]
