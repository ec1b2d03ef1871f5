"""Which cloths a figure lays out, and how they hang together just before a time on the bench."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from booklet.plan.picture import Cloth, Mark, Meeting
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

# Acts after which two joined pieces no longer lie side by side: the one has gone behind the other.
_BEHIND = frozenset({"turn", "understitch"})
_FOLDS = frozenset({"up", "in", "under", "down"})


class Laying:
    """The cloths of one figure.

    time: what was done before it is seen; drawn: pieces that have an outline; runs: the sides of the seam in hand.
    Where each is a run of as many pieces, one seam crosses another, and the pieces of a side lie opened out.
    """

    def __init__(self, bench: Bench, time: int, drawn: frozenset[str], runs: Sequence[Sequence[Edge]] = ()) -> None:
        self.bench = bench
        self.time = time
        self.drawn = drawn
        self.cloths: list[Cloth] = []
        self.number: dict[CutPiece, int] = {}
        self.copies: dict[int, int] = {}
        cuts = [set(dict.fromkeys(edge.cut for edge in run)) for run in runs]
        self.flat = cuts if len({len(run) for run in cuts}) == 1 else []

    def can_show(self, edges: Iterable[Edge]) -> bool:
        return all(same_name(edge.cut.piece.name) in self.drawn for edge in edges)

    def place(self, edges: Sequence[Edge], face: str, how: str = "alone", meets: tuple[Meeting, ...] = ()) -> bool:
        """Lays out the pieces of some edges: the first as said, the others as they hang on it. False: they can't be."""
        for cut in self._largest_first(edges):
            if cut in self.number:
                continue
            if same_name(cut.piece.name) not in self.drawn:
                return False
            if not self._hang(cut, face):
                self.add(cut, face, how, meets)
                how, meets = "alone", ()
        self.keep(edges)
        return True

    def _largest_first(self, edges: Iterable[Edge]) -> list[CutPiece]:
        """Where one piece went behind another, a facing its garment, the other comes first: that with more edges."""
        cuts = list(dict.fromkeys(edge.cut for edge in edges))
        if any(self.hides(one, two) for one, two in pairwise(cuts)):
            cuts.sort(key=lambda cut: -len(cut.piece.edges))
        return cuts

    def keep(self, edges: Iterable[Edge]) -> None:
        """Of pieces that lie folded in half, the half with these edges is the one to be seen."""
        for edge in edges:
            number = self.number.get(edge.cut)
            halved = self.cloths[number].halved if number is not None else ()
            if not halved or edge.spec.name == halved[1]:
                continue
            near = {one.spec.name for one in edge.neighbours}
            for pair in self._own_pairs(edge.cut):
                if edge.spec.name in pair:
                    self.change(edge.cut, halved=pair if edge.spec.name == pair[1] else pair[::-1])
                elif pair[0] in near and pair[1] not in near:
                    self.change(edge.cut, halved=pair[::-1])

    def place_one_each(self, edges: Sequence[Edge], face: str) -> None:
        """Lays out the pieces of some edges, of those that hang together already only the first."""
        for cut in dict.fromkeys(edge.cut for edge in edges):
            if cut not in self.number and not self._way_to(cut):
                self.add(cut, face)
        self.keep(edges)

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
                turned_in=tuple(edge.spec.name for edge in _once(cut) if self._turned_in(edge)),
                gathered=tuple(edge.spec.name for edge in _once(cut) if self._gathered(edge)),
                halved=self._halved(cut),
            )
        )
        return self.number[cut]

    def change(self, cut: CutPiece, **fields: object) -> None:
        number = self.number[cut]
        self.cloths[number] = self.cloths[number]._replace(**fields)  # type: ignore[arg-type]

    def opened_copies(self, edges: Sequence[Edge], face: str) -> bool:
        """Two copies of the same pieces side by side, joined at the same edges."""
        if not self.place(edges, face):
            return False
        for cut in dict.fromkeys(edge.cut for edge in edges):
            name = next(edge.spec.name for edge in edges if edge.cut is cut)
            self.again(cut, name, name)
        return True

    def again(self, cut: CutPiece, edge: str, other: str) -> int:
        """The same piece once more beside itself, one edge of it on another: a tube, spread at its seam."""
        first = self.number[cut]
        self.cloths.append(self.cloths[first]._replace(how="opened", meets=(Meeting(other, first, edge),)))
        self.copies[first] = len(self.cloths) - 1
        return len(self.cloths) - 1

    def flaps(self) -> list[Mark]:
        """Allowances that are pressed to the wrong side by now, on the cloths that show it."""
        return [
            Mark("flap", number, cloth.turned_in)
            for number, cloth in enumerate(self.cloths)
            if cloth.turned_in and cloth.face == "wrong" and not cloth.halved
        ]

    def _cut_to(self, cut: CutPiece) -> tuple[tuple[str, str], ...]:
        found = []
        for edge in _once(cut):
            for act in edge.acts:
                line = act.entry.options.get("to")
                if act.name == "cut" and act.time < self.time and line is not None:
                    found.append((edge.spec.name, same_name(line.value)))
        return tuple(found)

    def _turned_in(self, edge: Edge) -> bool:
        return any(act.time < self.time and turns_in(act) for act in edge.acts)

    def _gathered(self, edge: Edge) -> bool:
        """Drawn up as soon as it is sewn to what it is gathered for."""
        rows = [act for act in edge.acts if act.name == "gather" and act.time < self.time]
        return bool(rows) and any(seam.act.time <= self.time for seam in edge.seams)

    def _halved(self, cut: CutPiece) -> tuple[str, ...]:
        """A piece that was sewn to itself and turned right side out by itself, or folded and basted."""
        return next(iter(self._own_pairs(cut)), ())

    def _own_pairs(self, cut: CutPiece) -> list[tuple[str, ...]]:
        """Its own edges that lie on one another since it was folded and basted, or sewn and turned."""
        turned = any(
            act.time < self.time and {one.piece for one in act.cuts} == {cut.piece} for act in self.bench.of("turn")
        )
        seams = [seam for edge in _once(cut) for seam in edge.basted if seam.act.time < self.time]
        seams += self._seams(cut) if turned else []
        return [pair for seam in seams if (pair := own_edges(seam, cut))]

    def hangs_behind(self, cut: CutPiece) -> bool:
        """Whether it lies behind a cloth that is there, by a seam that was turned or understitched."""
        seams = [seam for seam in self._seams(cut) if any(edge.cut in self.number for edge in seam.edges)]
        return any(
            self.goes_behind(seam, cut, edge.cut) for seam in seams for edge in seam.edges if edge.cut is not cut
        )

    def _hang(self, cut: CutPiece, face: str) -> bool:
        """By the seams that join it to a cloth that lies there, other pieces between them where need be."""
        way = self._way_to(cut)
        for new, old, seam in way:
            face, how = self.cloths[self.number[old]].face, "opened"
            if self.goes_behind(seam, new, old):
                # Wrong sides together: seen from the right side it lies beneath, from the wrong side above.
                face, how = ("wrong", "under") if face == "right" else ("right", "over")
            number = self.add(new, face, how, self._meets(seam, new, old))
            if new is not cut:
                self.cloths[number] = self.cloths[number]._replace(quiet=True)
        return bool(way)

    def _meets(self, seam: Seam, new: CutPiece, old: CutPiece) -> tuple[Meeting, ...]:
        """The edges that come together; of one piece along a run of several, with all of them that lie there."""
        first = meeting(seam, new, old, self.number[old])
        mine = {edge.cut for layer in seam.layers for edge in layer.edges if any(one.cut is new for one in layer.edges)}
        run = [layer.edges for layer in seam.layers if any(edge.cut is old for edge in layer.edges)]
        beside = dict.fromkeys(edge.cut for edges in run for edge in edges if edge.cut in self.number)
        if len(mine) > 1 or len(beside) < 2 or new in beside:
            return first
        shown = [cut for cut in beside if self.cloths[self.number[cut]].how not in ("under", "over")]
        return tuple(meet for cut in shown for meet in meeting(seam, new, cut, self.number[cut])[:1]) or first

    def _way_to(self, cut: CutPiece) -> list[tuple[CutPiece, CutPiece, Seam]]:
        """From a cloth that lies there to a piece: each with the one before it and the seam between. Empty: none."""
        came: dict[CutPiece, tuple[CutPiece, Seam] | None] = dict.fromkeys(self.number)
        mates = [run for run in self.flat if cut in run]
        todo = sorted(self.number, key=lambda here: not any(here in run for run in mates))
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

    def hides(self, one: CutPiece, two: CutPiece) -> bool:
        """Whether a seam between two pieces was turned or understitched, so that one lies behind the other."""
        return any(
            act.time < self.time and act.name in _BEHIND
            for seam in self._seams(one)
            if any(edge.cut is two for edge in seam.edges)
            for act in seam.later
        )

    def goes_behind(self, seam: Seam, new: CutPiece, old: CutPiece) -> bool:
        if any(new in run and old in run for run in self.flat):
            return False
        if any(act.time < self.time and act.name in _BEHIND for act in seam.later):
            return True
        both = {new, old}
        return any(seam.act.time < act.time < self.time and both <= set(act.cuts) for act in self.bench.of("turn"))


def turns_in(act: Act) -> bool:
    """Whether it presses the allowance of an edge, of no seam, to the wrong side."""
    word = same_name(act.entry.word.value) if act.entry.word else ""
    return act.name == "press" and act.seam is None and act.target is None and bool(act.edges) and word in _FOLDS


def own_edges(seam: Seam, cut: CutPiece) -> tuple[str, ...]:
    """Two different edges of one piece that a seam sews together, or none."""
    if len(seam.layers) != 2 or any(edge.cut is not cut for edge in seam.edges):
        return ()
    one, two = ([edge.spec.name for edge in layer.edges] for layer in seam.layers)
    return (one[0], two[0]) if one and two and one[0] != two[0] else ()


def same_edges(one: Sequence[Edge], two: Sequence[Edge]) -> bool:
    """Whether two sides of a seam are the left and the right copy of the same edges."""
    return {(edge.cut, edge.spec.name) for edge in one} == {(edge.cut, edge.spec.name) for edge in two}


def meeting(seam: Seam, new: CutPiece, old: CutPiece, number: int) -> tuple[Meeting, ...]:
    """The edges of a seam in which two pieces meet, those of like names first.

    Where the sides are runs of as many pieces, each meets the one in its own place of the other run.
    """
    rows = [list(dict.fromkeys(edge.cut for edge in layer.edges)) for layer in seam.layers]
    mine = [[edge for edge in layer.edges if edge.cut is new] for layer in seam.layers]
    theirs = [[edge for edge in layer.edges if edge.cut is old] for layer in seam.layers]
    for at, own in enumerate(mine):
        for other_at, others in enumerate(theirs):
            if at == other_at or not own or not others:
                continue
            one, two = rows[at], rows[other_at]
            if 1 < len(one) == len(two) and one.index(new) != two.index(old) and new is not old:
                continue
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


def on_cloths(laying: Laying, kind: str, edges: Iterable[Edge], mark: Mark | None = None) -> list[Mark]:
    """One mark a cloth. mark: what else it says."""
    by_cloth: dict[int, list[str]] = {}
    for edge in edges:
        if edge.cut in laying.number:
            by_cloth.setdefault(laying.number[edge.cut], []).append(edge.spec.name)
    like = mark or Mark(kind, 0)
    marks = [
        like._replace(kind=kind, cloth=cloth, edges=tuple(dict.fromkeys(names))) for cloth, names in by_cloth.items()
    ]
    return marks + [one._replace(cloth=laying.copies[one.cloth]) for one in marks if one.cloth in laying.copies]
