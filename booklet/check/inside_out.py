"""Which seams leave a part wrong side out, so that it has to be turned before it is used?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.meant import is_end, is_tube, is_turned

if TYPE_CHECKING:
    from booklet.sew.bench import CutPiece, Edge, Seam

# Sewn right sides together, with the allowances on the outside until the part is turned.
RIGHT_SIDES_TOGETHER = frozenset({"plain", "enclosed"})


def shape(seam: Seam) -> str:
    """How a seam shuts in a part that is doubled when it is done: `end`, `corner`, `tube`; or "".

    end: a folded piece is sewn across its fold; corner: it goes round a corner of two layers, in this seam or with
    another one; tube: a narrow piece is sewn to itself along its length. Only pieces that are named as such, a cuff,
    a collar, a strap: two fronts that meet at a corner are no bag.
    """
    if seam.construction not in RIGHT_SIDES_TOGETHER:
        return ""
    for edge in seam.edges:
        if is_turned(edge.cut.called) and not edge.copy:
            if any(near in _across(seam, edge) for near in edge.neighbours):
                return "end"
            if any(_same_partner(seam, edge, near) for near in edge.neighbours):
                return "corner"
    return "tube" if _is_tube(seam) else ""


def _across(seam: Seam, edge: Edge) -> set[Edge]:
    """The edges on the other sides of the seam, of the same piece."""
    others = {other for layer in seam.layers if edge not in layer.edges for other in layer.edges}
    return {other for other in others if other.cut is edge.cut}


def _partners(seam: Seam, edge: Edge) -> set[CutPiece]:
    """The pieces to which the seam joins an edge: its own among them, where one copy is sewn to the other."""
    own = [layer for layer in seam.layers if edge in layer.edges]
    others = [layer for layer in seam.layers if layer not in own[:1]] if len(own) > 1 else seam.layers
    return {
        other.cut
        for layer in others
        for other in layer.edges
        if is_turned(other.cut.called) and (other.cut is not edge.cut or len(own) > 1)
    }


def _same_partner(seam: Seam, edge: Edge, near: Edge) -> bool:
    mine = _partners(seam, edge)
    return any(
        other.construction in RIGHT_SIDES_TOGETHER and mine & _partners(other, near)
        for other in near.seams
        if other.act.time <= seam.act.time
    )


def _is_tube(seam: Seam) -> bool:
    cut = seam.edges[0].cut
    alone = all(edge.cut is cut and not is_end(edge.name) for edge in seam.edges)
    return alone and len(seam.edges) == 2 and len(seam.layers) == 2 and is_tube(cut.called)
