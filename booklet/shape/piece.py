"""A piece with its edges named: what is measured, laid on another and drawn."""

from __future__ import annotations

from functools import cached_property
from typing import Any

from booklet.record import Record, fresh
from booklet.shape.course import Point, length
from booklet.shape.outline import Chord, Notch
from booklet.shape.seamline import Flat, seam_lines


class ShapedEdge(Record):
    """One edge, in the direction in which the writer goes round the piece; flat lines in millimetres.

    allowance: between the two, as the source states it (0 on a fold); drawn: what the file draws between its cutting
    and its sewing line, least and most, or None where it draws no sewing line there; notches: each with how far along
    the seam line it lies.
    """

    name: str
    cut: Flat
    seam: Flat
    allowance: float
    drawn: tuple[float, float] | None = None
    notches: tuple[tuple[float, Notch], ...] = ()

    @cached_property
    def length(self) -> float:
        """Of the seam line, without what darts and pleats take up."""
        return length(self.seam)


class ShapedDart(Record):
    """A dart: where its legs meet the edge, and its point. A pleat or tuck: its two lines, the point None."""

    name: str
    legs: tuple[Flat, Flat]
    point: Point | None


class PieceShape(Record):
    """One piece in one size (and fitting), as drawn: half of it where it is cut on the fold.

    edges: in the writer's order, which runs clockwise on paper (the piece is mirrored by no one: where the writer goes
    the other way round, `backwards` is set and the flat lines run as the writer goes); fold: the line on which it is
    mirrored; lines: marked lines by the writer's name; holes: marked dots.
    """

    name: str
    size: str
    edges: dict[str, ShapedEdge]
    backwards: bool = False
    fold: Chord | None = None
    grain: Chord | None = None
    lines: dict[str, Flat] = fresh(default_factory=dict)
    darts: dict[str, ShapedDart] = fresh(default_factory=dict)
    holes: tuple[Point, ...] = ()

    @cached_property
    def kept(self) -> dict[Any, Any]:
        """What was made of this piece once, by what was asked: the piece never changes, and the steps ask again."""
        return {}

    @cached_property
    def cut(self) -> Flat:
        """The cutting line all round, clockwise on paper, its last point its first."""
        return _ring([edge.cut for edge in self.edges.values()], self.backwards)

    @cached_property
    def seam(self) -> Flat:
        """The seam line all round, clockwise on paper."""
        return _ring([edge.seam for edge in self.edges.values()], self.backwards)


def _ring(lines: list[Flat], backwards: bool) -> Flat:
    found: list[Point] = []
    for points in lines:
        found += points if not found or found[-1] != points[0] else points[1:]
    if found and found[0] != found[-1]:
        found.append(found[0])
    return tuple(reversed(found)) if backwards else tuple(found)


def shaped_edges(named: dict[str, tuple[Flat, float]], backwards: bool) -> dict[str, ShapedEdge]:
    """Edges from their cutting lines and allowances, given in the writer's order and direction."""
    names = list(named)
    if backwards:
        names.reverse()
    cuts = [named[name][0][::-1] if backwards else named[name][0] for name in names]
    seams = dict(zip(names, seam_lines(cuts, [named[name][1] for name in names]), strict=True))
    return {
        name: ShapedEdge(name, cut, seams[name][::-1] if backwards else seams[name], allowance)
        for name, (cut, allowance) in named.items()
    }
