"""What the outlines measure: every edge of every piece, in every size and fitting, and as each view cuts it.

`measure` is what `check` calls: it opens the files of outlines only where their content, or what the pattern says of
its pieces, has changed since the last time (store.py).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.read.faults import Faults
from booklet.read.tree import same_name
from booklet.record import NamedTuple
from booklet.shape.trims import trims_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from booklet.model.pattern import Pattern
    from booklet.shape.shapes import Shapes
    from booklet.shape.trims import Trims


class NotchAt(NamedTuple):
    """place: how far along the sewn edge, from its beginning, in mm; kind: slit | v | t | castle | check | u."""

    place: float
    kind: str


class EdgeMeasure(NamedTuple):
    """One edge in one size on its seam line, in mm, from where it begins round the piece; half of it on a fold.

    sewn: its length as it is sewn to another, what its drawn darts and pleats take up left out; drawn: the allowance
    that the file draws there, least and most, or None where it draws no sewing line or draws it as stated; notches: in
    their order along it; turned: of a deep allowance, the length of its cut edge and of the cloth on which that comes
    to lie when it is turned up, each to the seam lines beside it; bow: how far it lies from the straight line between
    its ends in the mean, outward positive; bust: where the line marked `bust line` comes to it, from its beginning.
    """

    sewn: float
    drawn: tuple[float, float] | None = None
    notches: tuple[NotchAt, ...] = ()
    turned: tuple[float, float] | None = None
    bow: float = 0.0
    bust: float | None = None


class EdgeSizes(NamedTuple):
    """One edge in every size: each thing that an EdgeMeasure holds, a value a size; sewn None where it is not drawn."""

    sewn: tuple[float | None, ...]
    drawn: tuple[tuple[float, float] | None, ...]
    notches: tuple[tuple[NotchAt, ...], ...]
    turned: tuple[tuple[float, float] | None, ...]
    bow: tuple[float | None, ...]
    bust: tuple[float | None, ...]


class Measures:
    """sizes: the pattern's, or ("",); fittings: those in which any piece is drawn, or ("",).

    rows: by (piece, fitting, trims), each edge in all sizes; names as `same_name` has them; the fitting is "" where
    one outline serves all. trims: which edges are cut along which lines, () for none. dots: how many each piece has, in
    the size and fitting that has the fewest.
    """

    def __init__(
        self,
        pattern: Pattern,
        rows: dict[tuple[str, str, Trims], dict[str, EdgeSizes]],
        dots: dict[str, int] | None = None,
    ) -> None:
        self.sizes = pattern.sizes or ("",)
        self.rows = rows
        self.dots = dots or {}
        drawn = {fitting for _, fitting, _ in rows}
        self.fittings = tuple(fitting for fitting in pattern.fittings if fitting in drawn) or ("",)
        self._by_fitting = frozenset(piece for piece, fitting, _ in rows if fitting)
        self._trims = trims_of(pattern)
        # What was worked out of them once, for the views that cut their pieces alike.
        self.known: dict[Any, Any] = {}

    def edge(self, piece: str, edge: str, view: str = "", fitting: str = "") -> EdgeSizes | None:
        """One edge, as a view (by its letter) cuts the piece; None where that piece is not drawn, its edges could not
        be told, or the cutting takes the edge away."""
        edges = self.edges(piece, view, fitting)
        return edges.get(same_name(edge)) if edges else None

    def edges(self, piece: str, view: str = "", fitting: str = "") -> dict[str, EdgeSizes] | None:
        """All edges of a piece; those of the one outline that serves all fittings, where there is only that."""
        key = same_name(piece)
        trims = self._trims.get((view, key), ())
        return self.rows.get((key, fitting, trims)) or self.rows.get((key, "", trims))

    def trims(self, piece: str, view: str) -> Trims:
        """How a view cuts a piece."""
        return self._trims.get((view, same_name(piece)), ())

    def has_fittings(self, piece: str) -> bool:
        """Whether that piece is drawn by fitting."""
        return same_name(piece) in self._by_fitting


def measure(pattern: Pattern, faults: Faults, progress: Callable[[str], None] = lambda _: None) -> Measures | None:
    """What a pattern's outlines measure, or None where it names none. faults: takes what is wrong with them.

    progress: is told when it will take a while, and by "" that it is done.
    """
    if not pattern.outlines:
        return None
    from booklet.shape.files import outline_sources
    from booklet.shape.store import keep, kept, name_of

    if pattern.figure_size is not None:
        from booklet.shape.known import say_figure_size

        say_figure_size(pattern, faults)
    key = name_of(pattern, outline_sources(pattern, faults))
    found = kept(key, pattern)
    if found is None:
        progress("measuring the outlines")
        found = _measured_now(pattern)
        keep(key, pattern, found[0], found[1].findings)
    measures, later = found
    for finding in later.findings:
        faults.add(
            finding.rule, finding.place, finding.says, finding.mend, level=finding.level, related=finding.related
        )
    return measures


def _measured_now(pattern: Pattern) -> tuple[Measures, Faults]:
    """With what is wrong, but for the names of files and sizes: that is told each time."""
    from booklet.shape.course import FINE
    from booklet.shape.shapes import Shapes

    shapes = Shapes(pattern, Faults(), FINE)
    _ = shapes.sources
    shapes.faults = Faults()
    return measured(shapes), shapes.faults


def measured(shapes: Shapes) -> Measures:
    """Every piece in every size and fitting that is drawn, measured now."""
    cuts: dict[str, dict[Trims, None]] = {key: {(): None} for key in shapes.pattern.pieces}
    for (_, key), trims in trims_of(shapes.pattern).items():
        cuts[key][trims] = None
    rows: dict[tuple[str, str, Trims], dict[str, EdgeSizes]] = {}
    dots: dict[str, int] = {}
    for key, wanted in cuts.items():
        for fitting in shapes.fittings_of(key):
            each = [_in_one_size(shapes, key, fitting, size, tuple(wanted)) for size in shapes.sizes]
            rows |= {(key, fitting, trims): _by_edge([one.get(trims) for one in each]) for trims in wanted}
            drawn = [shape for size in shapes.sizes if (shape := shapes.of(key, size, fitting)) is not None]
            dots[key] = min([*(len(shape.holes) for shape in drawn), *([dots[key]] if key in dots else ())], default=0)
    return Measures(shapes.pattern, {names: edges for names, edges in rows.items() if edges}, dots)


def _in_one_size(
    shapes: Shapes, key: str, fitting: str, size: str, wanted: tuple[Trims, ...]
) -> dict[Trims, dict[str, EdgeMeasure]]:
    from booklet.shape.along import measured_edges
    from booklet.shape.trims import trimmed

    shape = shapes.of(key, size, fitting)
    if shape is None:
        return {}
    piece = shapes.pattern.pieces[key]
    cut = {trims: trimmed(piece, shape, trims) for trims in wanted}
    return {trims: measured_edges(piece, one) for trims, one in cut.items() if one is not None}


def _by_edge(each: list[dict[str, EdgeMeasure] | None]) -> dict[str, EdgeSizes]:
    names = dict.fromkeys(name for edges in each if edges for name in edges)
    return {name: _columns([edges.get(name) if edges else None for edges in each]) for name in names}


def _columns(each: list[EdgeMeasure | None]) -> EdgeSizes:
    return EdgeSizes(
        tuple(one and one.sewn for one in each),
        tuple(one and one.drawn for one in each),
        tuple(one.notches if one else () for one in each),
        tuple(one and one.turned for one in each),
        tuple(one and one.bow for one in each),
        tuple(one and one.bust for one in each),
    )
