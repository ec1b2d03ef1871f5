"""A piece after a dart in one of its edges was sewn: drawn flat, with the edge closed."""

from __future__ import annotations

import math

from booklet.shape.course import Point, along, between, distance, length, nearest
from booklet.shape.meet import ends_of
from booklet.shape.piece import PieceShape, ShapedDart, ShapedEdge
from booklet.shape.seamline import Flat

# A sewn dart makes the cloth hollow. Drawn flat, what lies above it is turned down about its point, less and less along
# the edge beyond, the armhole of a bust dart: over this angle at least, in radians. Our choice.
EASED = math.radians(20.0)
# In how many places is a leg tried for where it crosses a line, and then again near the best of them?
FINE = 24


class Turn:
    """About the dart's point: the upper leg comes to the lower, and what lies above follows, less and less.

    first: direction of the upper leg; wide: the angle of the dart; sense: +1 or -1, from the upper leg to the lower;
    firm: the angle, from the upper leg away from the dart, within which the cloth turns as one; still: the angle from
    which on it does not turn.
    """

    def __init__(self, point: Point, first: float, wide: float, sense: int, firm: float, still: float) -> None:
        self.point = point
        self.first = first
        self.wide = wide
        self.sense = sense
        self.firm = firm
        self.still = max(still, firm + EASED)

    def __call__(self, place: Point) -> Point:
        across, down = place[0] - self.point[0], place[1] - self.point[1]
        away = _turned(-self.sense * (math.atan2(down, across) - self.first))
        if away > math.pi:
            away -= 2 * math.pi
        if away < -1e-9:
            share = 0.0 if away < -self.wide / 2 else 1.0  # within the dart itself, which falls away
        else:
            share = min(max(1.0 - (away - self.firm) / (self.still - self.firm), 0.0), 1.0)
            share *= share * (3 - 2 * share)
        angle = self.sense * self.wide * share
        cosine, sine = math.cos(angle), math.sin(angle)
        return (
            self.point[0] + across * cosine - down * sine,
            self.point[1] + across * sine + down * cosine,
        )


def close_dart(shape: PieceShape, name: str) -> PieceShape:
    """The piece with a dart sewn. Its legs are then the seam and the fold, as it lies pressed down.

    The piece as it was where the dart has no point.
    """
    dart = shape.darts.get(name)
    if dart is None or dart.point is None:
        return shape
    upper, lower = sorted(dart.legs, key=lambda leg: leg[0][1])
    mouth = (upper[0], lower[0])
    edge = min(shape.edges, key=lambda key: sum(nearest(shape.edges[key].cut, end)[1] for end in mouth))
    turn = _turn_for(dart.point, upper[0], lower[0], shape, edge)
    edges = {key: _moved(one, turn, (upper, lower) if key == edge else None) for key, one in shape.edges.items()}
    darts = {key: one for key, one in shape.darts.items() if key != name}
    half = Turn(dart.point, _angle(dart.point, lower[0]), turn.wide / 2, turn.sense, math.pi, math.pi)
    darts[name] = ShapedDart(name, (lower, tuple(half(place) for place in lower)), dart.point)
    values = {key: getattr(shape, key) for key in PieceShape._fields}
    lines = {key: tuple(map(turn, line)) for key, line in shape.lines.items()}
    return PieceShape(
        **{**values, "edges": edges, "darts": darts, "lines": lines, "holes": tuple(map(turn, shape.holes))}
    )


def _turn_for(point: Point, upper: Point, lower: Point, shape: PieceShape, name: str) -> Turn:
    first, second = _angle(point, upper), _angle(point, lower)
    wide = _turned(second - first)
    sense = 1 if wide <= math.pi else -1
    wide = wide if sense > 0 else 2 * math.pi - wide

    def away(place: Point) -> float:
        angle = _turned(-sense * (_angle(point, place) - first))
        return angle if angle < math.pi else 0.0

    before, after = ends_of(shape, name)
    edge = shape.edges[name]
    if distance(edge.cut[0], upper) < distance(edge.cut[-1], upper):
        return Turn(point, first, wide, sense, away(edge.cut[0]), away(shape.edges[before].cut[0]))
    return Turn(point, first, wide, sense, away(edge.cut[-1]), away(shape.edges[after].cut[-1]))


def _moved(edge: ShapedEdge, turn: Turn, legs: tuple[Flat, Flat] | None) -> ShapedEdge:
    made = ShapedEdge(edge.name, _line(edge.cut, turn, legs), _line(edge.seam, turn, legs), edge.allowance, edge.drawn)
    made.notches = tuple(
        (nearest(made.seam, at)[0], notch._replace(at=at))
        for at, notch in ((turn(notch.at), notch) for _, notch in edge.notches)
    )
    return made


def _line(line: Flat, turn: Turn, legs: tuple[Flat, Flat] | None) -> Flat:
    """Moved; of the edge with the dart, what lies between its legs falls away. legs: the upper, the lower."""
    if legs is None:
        return tuple(map(turn, line))
    upper, lower = (_crossing(line, leg) for leg in legs)
    first, last = sorted((upper, lower))
    start, end = between(line, 0.0, first), between(line, last, length(line))
    if upper < lower:
        return (*map(turn, start[:-1]), *end)
    return (*start, *map(turn, end[1:]))


def _crossing(line: Flat, leg: Flat) -> float:
    """How far along a line a leg meets it: the line may be the seam line, and the leg begins at the cutting line."""
    whole = length(leg)
    low, step = 0.0, whole / FINE
    for _ in range(2):
        places = [(nearest(line, along(leg, low + step * at)), low + step * at) for at in range(FINE + 1)]
        (best, _), where = min(places, key=lambda one: one[0][1])
        low, step = max(where - step, 0.0), 2 * step / FINE
    return best


def _angle(point: Point, place: Point) -> float:
    return math.atan2(place[1] - point[1], place[0] - point[0])


def _turned(angle: float) -> float:
    return angle % (2 * math.pi)
