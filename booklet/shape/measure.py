"""What the outlines measure: every edge and marked line of every piece, in every size and fitting.

`measure` is what `check` calls: it opens the files of outlines only where their content, or what the pattern says of
its pieces, has changed since the last time (store.py).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.read.faults import Faults
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Pattern
    from booklet.shape.shapes import Shapes


class NotchAt(NamedTuple):
    """place: how far along the sewn edge, from its beginning, in mm; kind: slit | v | t | castle | check | u."""

    place: float
    kind: str


class EdgeMeasure(NamedTuple):
    """One edge on its seam line, in mm, from where it begins round the piece; half of it where it ends on a fold.

    sewn: its length as it is sewn to another, what its drawn darts and pleats take up left out; flat: with that;
    drawn: the allowance that the file draws there, least and most, or None where it draws no sewing line; notches:
    in their order along it.
    """

    sewn: float
    flat: float
    drawn: tuple[float, float] | None
    notches: tuple[NotchAt, ...]


class PieceMeasure(NamedTuple):
    """By the names of the pattern, as `same_name` has them. lines: the length of each marked line that is drawn."""

    edges: dict[str, EdgeMeasure]
    lines: dict[str, float]


class Measures:
    """pieces: by (piece, fitting, size), piece as `same_name` has it; fitting "" where one outline serves all, size ""
    where it is the same in every size. sizes: the pattern's, or ("",)."""

    def __init__(self, sizes: tuple[str, ...], pieces: dict[tuple[str, str, str], PieceMeasure]) -> None:
        self.sizes = sizes
        self.pieces = pieces

    def piece(self, name: str, size: str, fitting: str = "") -> PieceMeasure | None:
        """None where that piece is not drawn, or its edges could not be told."""
        key = same_name(name)
        return self.pieces.get((key, fitting, size)) or self.pieces.get((key, "", size))

    def edge(self, name: str, edge: str, size: str, fitting: str = "") -> EdgeMeasure | None:
        """One edge of it, or None."""
        piece = self.piece(name, size, fitting)
        return piece.edges.get(same_name(edge)) if piece else None

    def fittings_of(self, name: str) -> tuple[str, ...]:
        """The fittings in which that piece is drawn; ("",) where one outline serves all, () where there is none."""
        key = same_name(name)
        return tuple(dict.fromkeys(fitting for piece, fitting, _ in self.pieces if piece == key))


def measure(pattern: Pattern, faults: Faults) -> Measures | None:
    """What a pattern's outlines measure, or None where it names none. faults: takes what is wrong with them."""
    if not pattern.outlines:
        return None
    from booklet.shape.course import FINE
    from booklet.shape.shapes import Shapes
    from booklet.shape.store import keep, kept, name_of

    shapes = Shapes(pattern, faults, FINE)
    shapes.say_figure_size()
    key = name_of(pattern, shapes.sources)
    found = kept(key, pattern)
    if found is None:
        later = Faults()
        shapes.faults = later
        measures = measured(shapes)
        keep(key, pattern, measures, later.findings)
    else:
        measures, later = found
    for finding in later.findings:
        faults.add(
            finding.rule, finding.place, finding.says, finding.mend, level=finding.level, related=finding.related
        )
    return measures


def measured(shapes: Shapes) -> Measures:
    """Every piece in every size and fitting that is drawn, measured now."""
    from booklet.shape.along import measured_piece

    return Measures(
        shapes.sizes,
        {
            (key, fitting, size): measured_piece(shapes.pattern.pieces[key], shape)
            for key, fitting, size in _wanted(shapes)
            if (shape := shapes.of(key, size, fitting)) is not None
        },
    )


def _wanted(shapes: Shapes) -> Iterator[tuple[str, str, str]]:
    for key in shapes.pattern.pieces:
        for fitting in shapes.fittings_of(key):
            for size in shapes.sizes:
                yield key, fitting, size
