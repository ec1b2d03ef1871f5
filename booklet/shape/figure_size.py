"""The pieces in the size in which figures are drawn: read once, and kept from one build to the next."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Protocol

from booklet.read.faults import Faults
from booklet.read.tree import same_name
from booklet.shape.outline import Notch
from booklet.shape.piece import PieceShape, ShapedDart, ShapedEdge
from booklet.shape.store import STRANGE, got, hashed, name_of, put

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.shape.course import Point
    from booklet.shape.outline import Chord
    from booklet.shape.seamline import Flat
    from booklet.shape.shapes import Shapes


class Outlined(Protocol):
    """Whoever knows the shapes of pieces in the size of the figures: all sizes (Shapes), or that one."""

    @property
    def figure_size(self) -> str: ...

    def of(self, piece_name: str, size: str, fitting: str = "") -> PieceShape | None: ...


class FigureShapes:
    """figure_size: the size; key: the same as long as the outlines and what names their edges are."""

    def __init__(self, figure_size: str, key: str, shapes: dict[tuple[str, str], PieceShape]) -> None:
        self._size = figure_size
        self.key = key
        self._shapes = shapes

    @property
    def figure_size(self) -> str:
        return self._size

    @property
    def names(self) -> frozenset[str]:
        """The pieces that are drawn and whose edges are named, by `same_name`."""
        return frozenset(name for name, _ in self._shapes)

    def fittings_of(self, piece_name: str) -> tuple[str, ...]:
        """The fittings that have outlines of their own; ("",) where one serves all."""
        key = same_name(piece_name)
        return tuple(fitting for name, fitting in self._shapes if name == key) or ("",)

    def of(self, piece_name: str, size: str, fitting: str = "") -> PieceShape | None:
        """One piece, or None where it is not drawn or of another size; fitting "": the first that is drawn."""
        if size != self.figure_size:
            return None
        key = same_name(piece_name)
        return self._shapes.get((key, fitting)) or self._shapes.get((key, self.fittings_of(key)[0]))


def figure_shapes(pattern: Pattern) -> FigureShapes | None:
    """None where the pattern names no outlines. What is wrong with them is told by `check`."""
    if not pattern.outlines:
        return None
    from booklet.shape.shapes import Shapes

    shapes = Shapes(pattern, Faults())
    size = shapes.figure_size
    key = hashed("figure size", size, name_of(pattern, shapes.sources))
    try:
        found = {(name, fitting): _shape(whole) for name, fitting, whole in got(key)}
    except STRANGE:
        found = _all(pattern, shapes, size)
        put(key, [[name, fitting, _plain(shape)] for (name, fitting), shape in found.items()])
    return FigureShapes(size, key, found)


def _all(pattern: Pattern, shapes: Shapes, size: str) -> dict[tuple[str, str], PieceShape]:
    return {
        (name, fitting): shape
        for name in pattern.pieces
        for fitting in shapes.fittings_of(name)
        if (shape := shapes.of(name, size, fitting)) is not None
    }


def _plain(shape: PieceShape) -> dict[str, Any]:
    """What JSON can hold; numbers come back as they were."""
    return {
        **{name: getattr(shape, name) for name in ("name", "size", "backwards", "fold", "grain", "lines", "holes")},
        "edges": [[e.name, e.cut, e.seam, e.allowance, e.drawn, e.notches] for e in shape.edges.values()],
        "darts": [[dart.name, dart.legs, dart.point] for dart in shape.darts.values()],
    }


def _shape(whole: Any) -> PieceShape:
    """Raises an error of its own accord for whatever is not of the form that `_plain` gives."""
    edges = [
        ShapedEdge(
            str(name),
            _flat(cut),
            _flat(seam),
            float(allowance),
            None if drawn is None else _point(drawn),
            tuple((float(way), Notch(_point(at), str(kind), float(deep))) for way, (at, kind, deep) in notches),
        )
        for name, cut, seam, allowance, drawn, notches in whole["edges"]
    ]
    darts = [
        ShapedDart(str(name), (_flat(one), _flat(two)), None if point is None else _point(point))
        for name, (one, two), point in whole["darts"]
    ]
    return PieceShape(
        str(whole["name"]),
        str(whole["size"]),
        {edge.name: edge for edge in edges},
        bool(whole["backwards"]),
        _chord(whole["fold"]),
        _chord(whole["grain"]),
        {str(name): _flat(line) for name, line in whole["lines"].items()},
        {dart.name: dart for dart in darts},
        _flat(whole["holes"]),
    )


def _point(value: Any) -> Point:
    across, down = value
    return float(across), float(down)


def _chord(value: Any) -> Chord | None:
    if value is None:
        return None
    start, end = value
    return _point(start), _point(end)


def _flat(value: Any) -> Flat:
    return tuple(_point(point) for point in value)
