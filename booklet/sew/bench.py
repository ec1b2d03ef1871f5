"""The bench of one view: cut pieces, their edges, the seams between them, and every act in its time.

The bench records and never judges: rules read the record. Times count acts, so "before" and "after" are comparisons
of `Act.time`. An edge stands for both copies of a pair, left and right, because hands do the same to both.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from booklet.read.tree import same_name
from booklet.record import Record

if TYPE_CHECKING:
    from booklet.finding import Place
    from booklet.length import Length
    from booklet.model.pattern import EdgeSpec, Entry, Pattern, Piece, Step, View


LEFT, RIGHT = "left", "right"


def right_of(name: str) -> str:
    """The key of the right copy of an edge that is kept apart; the left one keeps the edge's own."""
    return f"{name} ({RIGHT})"


class Edge:
    """One edge of a cut piece.

    acts: everything done to it, in time order; closed: the act that closed it (a seam, a hem, a casing …), or None;
    seams: the seams in which it lies; basted: the bastings in which it lies; excused: something the writer is told of
    elsewhere already explains it, so that nothing more is said of it; copy: left or right, where the writer has asked
    for one of the two (`left front.side`), and "" where it stands for both.
    """

    __slots__ = ("_near", "acts", "basted", "closed", "copy", "cut", "excused", "finished", "name", "seams", "spec")

    def __init__(self, cut: CutPiece, name: str, spec: EdgeSpec) -> None:
        self.cut = cut
        self.name = name
        self.spec = spec
        self.acts: list[Act] = []
        self.seams: list[Seam] = []
        self.basted: list[Seam] = []
        self.closed: Act | None = None
        self.finished: Act | None = None
        self.excused = False
        self.copy = ""
        self._near: tuple[Edge, ...] | None = None

    @property
    def called(self) -> str:
        """As the writer names it: `front.side`."""
        return f"{self.copy} {self.cut.called}.{self.spec.name}".lstrip()

    @property
    def said(self) -> str:
        """As prose names it: `the side of the front`."""
        return f"the {self.spec.name.lower()} of the {f'{self.copy} {self.cut.called}'.strip().lower()}"

    @property
    def neighbours(self) -> tuple[Edge, ...]:
        """The edges that meet it at a corner: the one before and the one after it round the piece."""
        if self._near is None:
            self._near = self._find_near()
        return self._near

    def forget_near(self) -> None:
        """The piece has got another edge."""
        self._near = None

    def _find_near(self) -> tuple[Edge, ...]:
        ring = list(self.cut.edges.values())
        if self.cut.apart:
            ring = [edge for edge in ring if edge.copy in ("", self.copy or LEFT)]
        if len(ring) < 2:
            return ()
        at = ring.index(self)
        before, after = ring[at - 1], ring[(at + 1) % len(ring)]
        near: tuple[Edge, ...] = (before,) if before is after else (before, after)
        if self.cut.apart and not self.copy:
            near += tuple(self.cut.edges[right_of(edge.name)] for edge in near if edge.copy)
        return near

    def allowance(self) -> Length:
        return self.spec.allowance


class CutPiece:
    """All copies of one piece in one material, as one: `front`, or `front in fusible`.

    touched: the step that first works on it.
    """

    __slots__ = (
        "apart",
        "called",
        "darts",
        "edges",
        "fused",
        "group",
        "index",
        "material",
        "number",
        "part",
        "piece",
        "touched",
        "trusted",
    )

    def __init__(self, piece: Piece, material: str, called: str, count: int) -> None:
        self.piece = piece
        self.material = material
        self.called = called
        self.number = count
        self.edges: dict[str, Edge] = {name: Edge(self, name, spec) for name, spec in piece.edges.items()}
        self.darts: dict[str, Act | None] = dict.fromkeys(piece.darts)
        self.fused: Act | None = None
        self.touched: Step | None = None
        self.trusted = False
        self.apart = False
        self.group = Group(self)
        self.index = 0
        self.part: Part

    @property
    def paired(self) -> bool:
        """Whether there is a left and a right of it: two copies, or one on the fold."""
        return self.number > 1 or any(
            cut.on_fold and same_name(cut.material.value) == self.material for cut in self.piece.cuts
        )

    def split(self, name: str) -> None:
        """Keeps the two copies of an edge apart from here on: what was done to it was done to both."""
        both = self.edges[name]
        if both.copy or not self.paired:
            return
        right = Edge(self, name, both.spec)
        right.acts, right.seams, right.basted = list(both.acts), list(both.seams), list(both.basted)
        right.closed, right.finished, right.excused = both.closed, both.finished, both.excused
        both.copy, right.copy, self.apart = LEFT, RIGHT, True
        for seam in (*both.seams, *both.basted):
            for layer in seam.layers:
                if both in layer.edges:
                    layer.edges = (*layer.edges, right)
        ring: dict[str, Edge] = {}
        for key, edge in self.edges.items():
            ring[key] = edge
            if edge is both:
                ring[right_of(name)] = right
        self.edges = ring
        for edge in ring.values():
            edge.forget_near()
        self.group.open_edges(name).append(right)

    def copies(self, name: str) -> list[Edge]:
        """The edge of that name, both of them where they are kept apart."""
        edge, right = self.edges.get(name), self.edges.get(right_of(name)) if self.apart else None
        return [each for each in (edge, right) if each is not None]


class Group:
    """Cut pieces that hang together. Merging moves the smaller into the larger, so that all merging is n log n."""

    __slots__ = ("_open", "cuts", "fresh")

    def __init__(self, cut: CutPiece) -> None:
        self.cuts = [cut]
        self._open: dict[str, list[Edge]] = {name: [edge] for name, edge in cut.edges.items()}
        self.fresh: list[Part] = []

    def open_edges(self, name: str) -> list[Edge]:
        """The edges of that name that nothing has closed. Each edge is dropped once, so that asking stays cheap."""
        edges = self._open.get(name)
        if not edges:
            return []
        edges[:] = [edge for edge in edges if edge.closed is None]
        return edges

    def absorb(self, other: Group) -> None:
        for cut in other.cuts:
            cut.index = len(self.cuts)
            cut.group = self
            self.cuts.append(cut)
        for name, edges in other._open.items():
            self._open.setdefault(name, []).extend(edges)
        self.fresh.extend(other.fresh)


def merge(first: Group, second: Group) -> Group:
    if first is second:
        return first
    if len(first.cuts) < len(second.cuts):
        first, second = second, first
    first.absorb(second)
    return first


class Part:
    """A cut piece, or what a step made. Its cut pieces are `size` in a row of their group, from `first` on.

    made: the step that made it (None for a cut piece); gone: the step whose part took it in.
    """

    __slots__ = ("called", "first", "gone", "gone_into", "made", "name", "size")

    def __init__(self, name: str, called: str, first: CutPiece | None, size: int, made: Step | None = None) -> None:
        self.name = name
        self.called = called
        self.first = first
        self.size = size
        self.made = made
        self.gone: Step | None = None
        self.gone_into = ""

    @property
    def cuts(self) -> list[CutPiece]:
        if self.first is None:
            return []
        start = self.first.index
        return self.first.group.cuts[start : start + self.size]

    def holds(self, cut: CutPiece) -> bool:
        return (
            self.first is not None
            and cut.group is self.first.group
            and self.first.index <= cut.index < self.first.index + self.size
        )


class Layer:
    """One side of a seam: its edges, and the width left of its allowance, with the time of each change."""

    __slots__ = ("edges", "widths")

    def __init__(self, edges: tuple[Edge, ...], widths: list[tuple[int, Length]]) -> None:
        self.edges = edges
        self.widths = widths

    def width_at(self, time: int) -> Length:
        """The width left just before `time`."""
        left = self.widths[0][1]
        for when, width in self.widths:
            if when >= time:
                break
            left = width
        return left


class Seam:
    """Sides sewn together by one act. later: what was done to it afterwards (trim, clip, press, understitch …)."""

    __slots__ = ("act", "allowance", "construction", "later", "layers", "name")

    def __init__(self, act: Act, construction: str, allowance: Length, layers: list[Layer]) -> None:
        self.act = act
        self.construction = construction
        self.allowance = allowance
        self.layers = layers
        self.name = ""
        self.later: list[Act] = []

    @property
    def edges(self) -> list[Edge]:
        return list(dict.fromkeys(edge for layer in self.layers for edge in layer.edges))

    def acts(self, *operations: str) -> list[Act]:
        return [act for act in self.later if act.name in operations]


class Act:
    """One entry of work, done.

    name: its operation's; edges, cuts: what it was done to; seam: the seam it made or spoke of; target: an earlier act
    it spoke of that is no seam (a dart or a hem that is pressed); broken: something that it names was not to be had, so
    that only part of it could be done; taken: the cut pieces that it uses up beside.
    """

    __slots__ = (
        "broken",
        "cuts",
        "darts",
        "edges",
        "entry",
        "later",
        "name",
        "parts",
        "seam",
        "sides",
        "step",
        "taken",
        "target",
        "time",
    )

    def __init__(self, time: int, step: Step, entry: Entry) -> None:
        self.time = time
        self.step = step
        self.entry = entry
        self.name = entry.operation.name
        self.edges: list[Edge] = []
        self.sides: list[list[Edge]] = []
        self.cuts: list[CutPiece] = []
        self.parts: list[Part] = []
        self.darts: list[tuple[CutPiece, str]] = []
        self.seam: Seam | None = None
        self.target: Act | None = None
        self.later: list[Act] = []
        self.broken = False
        self.taken: list[CutPiece] = []

    @property
    def place(self) -> Place:
        return self.entry.place


class Missing(Record):
    """Something a step named that was not to be had.

    kind: unknown part | unknown edge | unknown dart | unknown line | unknown layer | not cut | not made | made later |
    already closed | already gone | no seam | made twice | unjoined
    meant: the edges of other pieces that the name may stand for, where no step begins to make the part.
    """

    kind: str
    step: Step
    written: str
    place: Place
    entry: Entry | None = None
    part: Part | None = None
    edge: Edge | None = None
    maker: Step | None = None
    known: tuple[str, ...] = ()
    time: int = 0
    meant: tuple[Edge, ...] = ()


class Bench:
    """One view, sewn. `left_out`: ids of optional steps that this run leaves out."""

    def __init__(self, pattern: Pattern, view: View, left_out: frozenset[str] = frozenset()) -> None:
        self.pattern = pattern
        self.view = view
        self.left_out = left_out
        self.steps: list[Step] = []
        self.cuts: dict[str, CutPiece] = {}
        self.parts: dict[str, Part] = {}
        self.makers: dict[str, list[Step]] = {}
        self.acts: list[Act] = []
        self.by_name: dict[str, list[Act]] = {}
        self.seams: list[Seam] = []
        self.bastings: list[Seam] = []
        self.missing: list[Missing] = []
        self.named_seams: dict[str, Seam] = {}
        self.last_seam: Seam | None = None
        # Seams that could not be sewn for want of a side: what speaks of them later is not told again.
        self.lost_seams: set[str] = set()
        self.last_lost = False
        self.last_work: Act | None = None
        self.started: dict[str, int] = {}

    @cached_property
    def made_anywhere(self) -> dict[str, list[Step]]:
        """The steps of the whole pattern, this view's or not, that make a part, by its name."""
        made: dict[str, list[Step]] = {}
        for step in self.pattern.steps:
            if step.makes is not None:
                made.setdefault(same_name(step.makes.value), []).append(step)
        return made

    @cached_property
    def part_names(self) -> tuple[str, ...]:
        """Every name that could stand for a part in this pattern, as written."""
        made = (steps[0].makes.value.strip() for steps in self.made_anywhere.values() if steps[0].makes)
        pieces = (piece.name for piece in self.pattern.pieces.values())
        return tuple(dict.fromkeys([*(cut.called for cut in self.cuts.values()), *made, *pieces]))

    @cached_property
    def seam_makers(self) -> dict[str, tuple[str, Step]]:
        """Every name that an entry of this view gives a seam (`as:`), as written, and the first step that gives it."""
        makers: dict[str, tuple[str, Step]] = {}
        for step in self.steps:
            for entry in step.work:
                name = entry.options.get("as")
                if name is not None:
                    makers.setdefault(same_name(name.value), (name.value.strip(), step))
        return makers

    def of(self, *operations: str) -> list[Act]:
        """The acts of some operations, in time order."""
        if len(operations) == 1:
            return self.by_name.get(operations[0], [])
        return sorted((act for name in operations for act in self.by_name.get(name, [])), key=lambda act: act.time)

    @property
    def edges(self) -> list[Edge]:
        return [edge for cut in self.cuts.values() for edge in cut.edges.values()]

    @property
    def groups(self) -> list[Group]:
        """What hangs together at the end, in the order of the cut pieces."""
        return list(dict.fromkeys(cut.group for cut in self.cuts.values()))
