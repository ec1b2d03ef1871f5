"""The pattern pieces, and how many to cut of what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.plan import PieceRow
from booklet.plan.write import capital, one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern


def pieces_of(pattern: Pattern, views: tuple[str, ...]) -> list[PieceRow]:
    """Those of these views, in the order of the source."""
    rows = []
    for piece in pattern.pieces.values():
        mine = tuple(view for view in views if view in piece.scope.views)
        if mine:
            cuts = tuple((_material(pattern, cut.material.value), cut.written) for cut in piece.cuts)
            cloth = _cloth(pattern, piece.cuts[0].material.value) if piece.cuts else "self"
            rows.append(PieceRow(one_line(piece.number), capital(piece.name), cuts, mine, cloth))
    return rows


def _material(pattern: Pattern, key: str) -> str:
    material = pattern.materials.get(same_name(key))
    return one_line(material.name if material else key)


def _cloth(pattern: Pattern, key: str) -> str:
    material = pattern.materials.get(same_name(key))
    return material.kind if material is not None and material.kind in ("lining", "interfacing") else "self"
