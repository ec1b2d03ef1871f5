"""Which cloths a figure lays out, and how they hang together just before a time on the bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.picture import Cloth, Meeting
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

# Acts after which two joined pieces no longer lie side by side: the one has gone behind the other.
_BEHIND = frozenset({"turn", "understitch"})


class Laying:
    """The cloths of one figure. `time`: what was done before it is seen; `drawn`: pieces that have an outline."""

    def __init__(self, bench: Bench, time: int, drawn: frozenset[str]) -> None:
        self.bench = bench
        self.time = time
        self.drawn = drawn
        self.cloths: list[Cloth] = []
        self.number: dict[CutPiece, int] = {}

    def can_show(self, edges: Iterable[Edge]) -> bool:
        return all(same_name(edge.cut.piece.name) in self.drawn for edge in edges)

    def place(self, edges: Sequence[Edge], face: str, how: str = "alone", meets: tuple[Meeting, ...] = ()) -> bool:
        """Lays out the pieces of some edges: the first as said, the others as they hang on it. False: they can't be."""
        for cut in dict.fromkeys(edge.cut for edge in edges):
            if cut in self.number:
                continue
            if same_name(cut.piece.name) not in self.drawn:
                return False
            if not self._hang(cut, face):
                self.add(cut, face, how, meets)
                how, meets = "alone", ()
        return True

    def place_one_each(self, edges: Sequence[Edge], face: str) -> None:
        """Lays out the pieces of some edges, of those that hang together already only the first."""
        for cut in dict.fromkeys(edge.cut for edge in edges):
            if cut not in self.number and not self._way_to(cut):
                self.add(cut, face)

    def add(self, cut: CutPiece, face: str, how: str = "alone", meets: tuple[Meeting, ...] = ()) -> int:
        self.number[cut] = len(self.cloths)
        self.cloths.append(
            Cloth(
                piece=same_name(cut.piece.name),
                called=cut.piece.name.lower(),
                cloth=cloth_of(self.bench, cut),
                face=face,
                how=how,
                meets=meets,
                cut_to=self._cut_to(cut),
                sewn=tuple(edge.spec.name for edge in _once(cut) if any(s.act.time < self.time for s in edge.seams)),
                hemmed=tuple(
                    edge.spec.name
                    for edge in _once(cut)
                    if edge.closed and edge.closed.time < self.time and edge.closed.name in ("hem", "casing")
                ),
                darts=tuple(name for name, act in cut.darts.items() if act and act.time < self.time),
                fused=cut.fused is not None and cut.fused.time < self.time,
            )
        )
        return self.number[cut]

    def _cut_to(self, cut: CutPiece) -> tuple[tuple[str, str], ...]:
        found = []
        for edge in _once(cut):
            for act in edge.acts:
                line = act.entry.options.get("to")
                if act.name == "cut" and act.time < self.time and line is not None:
                    found.append((edge.spec.name, same_name(line.value)))
        return tuple(found)

    def hangs_behind(self, cut: CutPiece) -> bool:
        """Whether it lies behind a cloth that is there, by a seam that was turned or understitched."""
        seams = [seam for seam in self._seams(cut) if any(edge.cut in self.number for edge in seam.edges)]
        return any(self._behind(seam, cut, edge.cut) for seam in seams for edge in seam.edges if edge.cut is not cut)

    def _hang(self, cut: CutPiece, face: str) -> bool:
        """By the seams that join it to a cloth that lies there, other pieces between them where need be."""
        way = self._way_to(cut)
        for new, old, seam in way:
            face, how = self.cloths[self.number[old]].face, "opened"
            if self._behind(seam, new, old):
                # Wrong sides together: seen from the right side it lies beneath, from the wrong side above.
                face, how = ("wrong", "under") if face == "right" else ("right", "over")
            number = self.add(new, face, how, meeting(seam, new, old, self.number[old]))
            if new is not cut:
                self.cloths[number] = self.cloths[number]._replace(quiet=True)
        return bool(way)

    def _way_to(self, cut: CutPiece) -> list[tuple[CutPiece, CutPiece, Seam]]:
        """From a cloth that lies there to a piece: each with the one before it and the seam between. Empty: none."""
        came: dict[CutPiece, tuple[CutPiece, Seam] | None] = dict.fromkeys(self.number)
        todo = list(self.number)
        for here in todo:
            if here is cut:
                break
            for seam in self._seams(here):
                for other in dict.fromkeys(edge.cut for edge in seam.edges):
                    known = same_name(other.piece.name) in self.drawn
                    if other not in came and known and meeting(seam, other, here, 0):
                        came[other] = (here, seam)
                        todo.append(other)
        if cut not in came:
            return []
        way: list[tuple[CutPiece, CutPiece, Seam]] = []
        at = cut
        while (step := came[at]) is not None:
            way.append((at, *step))
            at = step[0]
        return way[::-1]

    def _seams(self, cut: CutPiece) -> list[Seam]:
        seams = [seam for edge in _once(cut) for seam in edge.seams if seam.act.time < self.time]
        return list(dict.fromkeys(seams))

    def _behind(self, seam: Seam, new: CutPiece, old: CutPiece) -> bool:
        if any(act.time < self.time and act.name in _BEHIND for act in seam.later):
            return True
        both = {new, old}
        return any(seam.act.time < act.time < self.time and both <= set(act.cuts) for act in self.bench.of("turn"))


def meeting(seam: Seam, new: CutPiece, old: CutPiece, number: int) -> tuple[Meeting, ...]:
    """The edges of a seam in which two pieces meet, those of like names first."""
    mine = [[edge for edge in layer.edges if edge.cut is new] for layer in seam.layers]
    theirs = [[edge for edge in layer.edges if edge.cut is old] for layer in seam.layers]
    for at, own in enumerate(mine):
        for other_at, others in enumerate(theirs):
            if at != other_at and own and others:
                return pairs([edge.spec.name for edge in own], [edge.spec.name for edge in others], number)
    return ()


def pairs(own: list[str], others: list[str], number: int) -> tuple[Meeting, ...]:
    """Edges with one another in their order; where one side has fewer, its last with the rest."""
    if len(own) == len(others):
        alike = set(own) == set(others)
        return tuple(Meeting(edge, number, edge if alike else other) for edge, other in zip(own, others, strict=True))
    return (Meeting(own[0], number, others[0]),)


def _once(cut: CutPiece) -> list[Edge]:
    return [edge for edge in cut.edges.values() if edge.copy in ("", "left")]


def cloth_of(bench: Bench, cut: CutPiece) -> str:
    """self | lining | interfacing"""
    material = bench.pattern.materials.get(cut.material)
    kind = material.kind if material else ""
    return kind if kind in ("lining", "interfacing") else "self"


def laid_out(laying: Laying, act: Act, edges: Sequence[Edge], face: str) -> bool:
    """Lays out what one act is done to, if all of it can be drawn."""
    return bool(edges) and not act.broken and laying.can_show(edges) and laying.place(edges, face)
