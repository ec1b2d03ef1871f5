"""Lengths and places along the edges of one shape, with and without what its darts and pleats take up."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from booklet.read.tree import same_name
from booklet.shape.course import area, distance, nearest
from booklet.shape.measure import EdgeMeasure, NotchAt
from booklet.shape.turnup import turned_up

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Piece
    from booklet.shape.course import Point
    from booklet.shape.piece import PieceShape, ShapedDart, ShapedEdge
    from booklet.shape.seamline import Flat

# A leg that begins further than this from an edge's cutting or seam line does not cross it, in mm. Our choice.
REACH = 8.0

# What the line at the fullest part of the bust is called under `lines:`, as `same_name` has it. Common practice, no
# source.
BUST = "bust line"

# A file that draws an allowance so near to the stated one draws that, in mm. Our choice: half of what a rule tells.
AS_STATED = 0.5

Span = tuple[float, float]


def measured_edges(piece: Piece, shape: PieceShape) -> dict[str, EdgeMeasure]:
    """Every edge of a shape by its name as `same_name` has it, rounded to a hundredth of a millimetre."""
    return {same_name(name): _edge(piece, shape, edge) for name, edge in shape.edges.items()}


def taken_up(piece: Piece, shape: PieceShape, edge: str) -> tuple[Span, ...]:
    """The stretches of an edge's seam line that its drawn darts, pleats and tucks take up, in their order.

    In mm from the edge's beginning. edge: as `shape.edges` names it.
    """
    spans = []
    for dart in piece.darts.values():
        drawn = shape.darts.get(dart.name)
        if drawn is not None and any(same_name(crossed.value) == same_name(edge) for crossed in dart.crosses):
            span = _span(shape.edges[edge], drawn)
            if span is not None:
                spans.append(span)
    return _merged(spans)


def sewn_place(place: float, spans: Sequence[Span]) -> float:
    """Where a place on the flat seam line comes to lie once the stretches before it are taken up."""
    return place - sum(min(max(place - first, 0.0), last - first) for first, last in spans)


def _edge(piece: Piece, shape: PieceShape, edge: ShapedEdge) -> EdgeMeasure:
    spans = taken_up(piece, shape, edge.name)
    turned = turned_up(shape, edge)
    notches = [NotchAt(round(sewn_place(place, spans), 2), notch.kind) for place, notch in edge.notches]
    return EdgeMeasure(
        round(sewn_place(edge.length, spans), 2),
        _drawn(edge),
        tuple(sorted(notches)),
        turned and (round(turned[0], 2), round(turned[1], 2)),
        round(_bow(edge.seam) * (-1 if shape.backwards else 1), 2),
        _bust(shape, edge, spans),
    )


def _bust(shape: PieceShape, edge: ShapedEdge, spans: Sequence[Span]) -> float | None:
    """Where the bust line comes to an edge; None where none is marked, or it ends elsewhere."""
    line = next((line for name, line in shape.lines.items() if same_name(name) == BUST), None)
    place = _crossing(edge, line) if line is not None else None
    return None if place is None else round(sewn_place(place, spans), 2)


def _bow(line: Flat) -> float:
    """The mean distance of a line from the straight one between its ends; positive to the left of who walks along it,
    which is outside of a piece that is walked round clockwise on paper."""
    straight = distance(line[0], line[-1])
    return area(line) / straight if straight > 1.0 else 0.0


def _drawn(edge: ShapedEdge) -> Span | None:
    """The drawn allowance, where it is not the stated one."""
    if edge.drawn is None or all(abs(width - edge.allowance) < AS_STATED for width in edge.drawn):
        return None
    return round(edge.drawn[0], 2), round(edge.drawn[1], 2)


def _merged(spans: list[Span]) -> tuple[Span, ...]:
    found: list[Span] = []
    for span in sorted(spans):
        if found and span[0] <= found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], span[1]))
        else:
            found.append(span)
    return tuple(found)


def _span(edge: ShapedEdge, dart: ShapedDart) -> Span | None:
    """Between the places where its two legs cross the seam line; None where they don't come to this edge."""
    places = [_crossing(edge, leg) for leg in dart.legs]
    if places[0] is None or places[1] is None or places[0] == places[1]:
        return None
    return min(places[0], places[1]), max(places[0], places[1])


def _crossing(edge: ShapedEdge, leg: Flat) -> float | None:
    """Where a leg crosses the seam line: the leg itself, or its straight run on to the line."""
    if min(nearest(line, leg[0])[1] for line in (edge.cut, edge.seam)) > REACH:
        leg = leg[::-1]
        if min(nearest(line, leg[0])[1] for line in (edge.cut, edge.seam)) > REACH:
            return None
    gone = 0.0
    for one, two in itertools.pairwise(edge.seam):
        for first, last in itertools.pairwise(leg):
            share = _share(one, two, first, last)
            if share is not None:
                return gone + share * distance(one, two)
        gone += distance(one, two)
    return _run_on(edge.seam, leg)


def _share(one: Point, two: Point, first: Point, last: Point) -> float | None:
    """How far along one-two it is crossed by first-last, as a share; None where it is not."""
    ux, uy, vx, vy = two[0] - one[0], two[1] - one[1], last[0] - first[0], last[1] - first[1]
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-12:
        return None
    wx, wy = first[0] - one[0], first[1] - one[1]
    share, on_leg = (wx * vy - wy * vx) / turn, (wx * uy - wy * ux) / turn
    return share if -1e-9 <= share <= 1 + 1e-9 and -1e-9 <= on_leg <= 1 + 1e-9 else None


def _run_on(seam: Flat, leg: Flat) -> float:
    """A leg that stops short of the seam line goes on straight; where even that misses it, the nearest place."""
    step = distance(leg[0], leg[1]) or 1.0
    reach = 2 * REACH + min(nearest(seam, leg[0])[1], 50.0)
    ahead = tuple(leg[0][axis] + (leg[0][axis] - leg[1][axis]) / step * reach for axis in (0, 1))
    gone = 0.0
    for one, two in itertools.pairwise(seam):
        share = _share(one, two, leg[0], (ahead[0], ahead[1]))
        if share is not None:
            return gone + share * distance(one, two)
        gone += distance(one, two)
    return nearest(seam, leg[0])[0]
