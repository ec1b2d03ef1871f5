"""At which corners the edges of a piece may begin: a first guess from how they curve and where the fold is."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, NamedTuple

from booklet.shape.course import area, between, distance, length, nearest
from booklet.shape.marks import NEAR

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.model.pattern import EdgeSpec, Piece
    from booklet.shape.course import Point
    from booklet.shape.outline import Outline
    from booklet.shape.seamline import Flat

# How far must a stretch swell from its chord to be a curve, as a share of the chord's square? Our choice: an arc that
# rises by a twenty-fifth of its chord.
CURVED = 0.027
# The most guesses that are compared. Our choice: a fifth of a second.
MOST = 6_000


class _Mark(NamedTuple):
    """A place on the ring where an edge may begin: as it is written, how far along, and how sharp the corner is."""

    written: str
    way: float
    sharp: float


def proposed_corners(piece: Piece, outline: Outline) -> list[str] | None:
    """As `corners:` takes them, in the order of the piece's edges; None where the outline has too few marks."""
    flat = outline.ring.points()
    marks = _marks(outline, flat, len(piece.edges))
    if len(marks) < len(piece.edges) or not piece.edges:
        return None
    best = max(_guesses(marks, len(piece.edges)), key=lambda guess: _score(piece, outline, flat, guess))
    return [mark.written for mark in best]


def _marks(outline: Outline, flat: Flat, wanted: int) -> list[_Mark]:
    """Corners; and where there are fewer than edges, notches and dots on the cutting line too."""
    found = [
        _Mark(str(at), nearest(flat, point)[0], _sharp(flat, point)) for at, point in enumerate(outline.corners, 1)
    ]
    if len(found) < wanted:
        spots = [(f"n{at}", notch.at) for at, notch in enumerate(outline.notches, 1)]
        spots += [(f"d{at}", point) for at, point in enumerate(outline.holes, 1)]
        found += [_Mark(name, way, 0.0) for name, point in spots for way, off in [nearest(flat, point)] if off <= NEAR]
    return sorted(found, key=lambda mark: mark.way)


def _sharp(flat: Flat, point: Point) -> float:
    """How far the ring turns at a point, as a share of half a turn."""
    way, whole = nearest(flat, point)[0], length(flat)
    before, after = (_on(flat, (way + step) % whole) for step in (-4.0, 4.0))
    one = math.atan2(point[1] - before[1], point[0] - before[0])
    two = math.atan2(after[1] - point[1], after[0] - point[0])
    return abs((two - one + math.pi) % (2 * math.pi) - math.pi) / math.pi


def _on(flat: Flat, way: float) -> Point:
    return between(flat, way, way)[0]


def _guesses(marks: list[_Mark], wanted: int) -> Iterator[tuple[_Mark, ...]]:
    """Choices of as many marks as there are edges, from each on, both ways round."""
    while math.comb(len(marks), wanted) * wanted * 2 > MOST and len(marks) > wanted:
        dullest = min(marks, key=lambda mark: mark.sharp)
        marks = [mark for mark in marks if mark is not dullest]
    for chosen in itertools.combinations(marks, wanted):
        for first in range(wanted):
            turned = (*chosen[first:], *chosen[:first])
            yield turned
            if wanted > 2:
                yield (turned[0], *reversed(turned[1:]))


def _score(piece: Piece, outline: Outline, flat: Flat, guess: Sequence[_Mark]) -> float:
    """Sharp corners, the fold on the mirror line, edges that curve as the source says; then the file's own order."""
    ahead = (guess[1].way - guess[0].way) % length(flat) if len(guess) > 1 else 0.0
    forward = len(guess) < 3 or ahead < (guess[2].way - guess[0].way) % length(flat)
    whole = area(flat)
    score = sum(mark.sharp for mark in guess) + (0.2 if forward else 0.0) - 0.01 * (guess[0].way / length(flat))
    for at, edge in enumerate(piece.edges.values()):
        one, two = guess[at], guess[(at + 1) % len(guess)]
        stretch = _stretch(flat, one.way, two.way) if forward else _stretch(flat, two.way, one.way)
        score += _fits(edge, outline, stretch, whole)
    return score


def _stretch(flat: Flat, first: float, last: float) -> Flat:
    if first < last:
        return between(flat, first, last)
    return (*between(flat, first, length(flat)), *between(flat, 0.0, last)[1:])


def _fits(edge: EdgeSpec, outline: Outline, stretch: Flat, whole: float) -> float:
    """How well a stretch suits an edge. whole: the area of the ring, below 0 where it runs the other way."""
    chord = distance(stretch[0], stretch[-1])
    swell = math.copysign(1.0, whole) * area(stretch) / max(chord, 1.0) ** 2
    curve = "" if abs(swell) < CURVED else "outward" if swell > 0 else "inward"
    score = 1.0 if edge.curve == curve else 0.0
    if edge.fold:
        score += 1.0 if not curve else 0.0
        if outline.mirror is not None:
            off = max(nearest(outline.mirror, stretch[0])[1], nearest(outline.mirror, stretch[-1])[1])
            score += 3.0 if off <= NEAR else -3.0
    elif outline.mirror is not None and all(nearest(outline.mirror, point)[1] <= NEAR for point in stretch):
        score -= 3.0
    return score
