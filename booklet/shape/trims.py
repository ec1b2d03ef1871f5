"""Which edges each view cuts along a marked line, and the pieces after that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Entry, Pattern, Piece
    from booklet.read.tree import Text
    from booklet.shape.piece import PieceShape

# Edges with the lines along which they are cut, in the order of the steps; names as `same_name` has them.
Trims = tuple[tuple[str, str], ...]


def trims_of(pattern: Pattern) -> dict[tuple[str, str], Trims]:
    """By (view, piece), for the pieces that are cut along any line."""
    found: dict[tuple[str, str], dict[tuple[str, str], None]] = {}
    for step in pattern.steps:
        for entry in step.work:
            to: Text | None = entry.options.get("to") if entry.name == "cut" else None
            if to is None:
                continue
            for key, edge in _edges_of(pattern, entry, same_name(to.value)):
                for view in step.scope.views:
                    if view in pattern.pieces[key].scope.views:
                        found.setdefault((view, key), {})[edge, same_name(to.value)] = None
    return {names: tuple(cuts) for names, cuts in found.items()}


def _edges_of(pattern: Pattern, entry: Entry, line: str) -> Iterator[tuple[str, str]]:
    """Piece and edge; through a part that a step made, those of every piece that has such an edge and that line."""
    for name in entry.things:
        if name.part in pattern.pieces:
            yield name.part, name.edge
            continue
        for key, piece in pattern.pieces.items():
            if name.edge in piece.edges and line in map(same_name, piece.drawn_lines):
                yield key, name.edge


def trimmed(piece: Piece, shape: PieceShape, trims: Trims) -> PieceShape | None:
    """The shape after it was cut along those lines; None where one is not drawn, or ends at no edges."""
    from booklet.shape.recut import cut_along

    for edge, line in trims:
        name = next((name for name in shape.edges if same_name(name) == edge), "")
        mark = next((mark for mark in shape.lines if same_name(mark) == line), "")
        if not name or not mark:
            return None
        own = piece.line_allowances.get(line)
        cut = cut_along(shape, name, mark, float(own.length.millimetres) if own else shape.edges[name].allowance)
        if cut is shape:
            return None
        shape = cut
    return shape
