"""At which corners the edges of a piece may begin: a first guess from how they curve and where the fold is."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING, NamedTuple

from booklet.shape.course import area, between, distance, length, nearest
from booklet.shape.marks import NEAR, ON_LINE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.model.pattern import EdgeSpec, Piece
    from booklet.shape.course import Point
    from booklet.shape.outline import Outline
    from booklet.shape.seamline import Flat

# How far must a stretch swell from its chord to be a curve, as a share of the chord's square? Our choice: an arc that
# rises by a twenty-fifth of its chord.
CURVED = 0.027
# A dot no further than this from the cutting line, in mm, may be where an edge ends: it lies on the seam line. Our
# choice.
DEEP = 30.0
# What using a true corner is worth, and a dot before a notch, which more often marks a place along an edge. Our choice.
CORNER, DOT = 1.5, 0.1
# The most guesses that are compared. Our choice: a fifth of a second.
MOST = 6_000


class _Mark(NamedTuple):
    """A place on the ring where an edge may begin: as it is written, how far along, and what it is worth."""

    written: str
    way: float
    worth: float


def proposed_corners(piece: Piece, outline: Outline) -> list[str] | None:
    """As `corners:` takes them, in the order of the piece's edges; None where the outline has too few marks."""
    flat = outline.ring.points()
    marks = _marks(outline, flat, len(piece.edges))
    if len(marks) < len(piece.edges) or not piece.edges:
        return None
    judge = _Judge(piece, outline, flat)
    best = max(_guesses(marks, len(piece.edges)), key=judge.score)
    return [mark.written for mark in best]


def _marks(outline: Outline, flat: Flat, wanted: int) -> list[_Mark]:
    """Corners; and where there are fewer than edges, notches and dots by the cutting line too."""
    found = []
    for number, corner in enumerate(outline.corners, 1):
        found.append(_Mark(str(number), nearest(flat, corner)[0], CORNER + _sharp(flat, corner)))
    if len(found) >= wanted:
        return found
    others = [(f"n{number}", notch.at, NEAR, 0.0) for number, notch in enumerate(outline.notches, 1)]
    others += [(f"d{number}", hole, DEEP, DOT) for number, hole in enumerate(outline.holes, 1)]
    corners = [mark.way for mark in found]
    for written, point, reach, worth in others:
        way, off = nearest(flat, point)
        if off <= reach and all(abs(way - corner) > ON_LINE for corner in corners):
            found.append(_Mark(written, way, worth))
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
        least = min(marks, key=lambda mark: mark.worth)
        marks = [mark for mark in marks if mark is not least]
    for chosen in itertools.combinations(marks, wanted):
        for first in range(wanted):
            turned = (*chosen[first:], *chosen[:first])
            yield turned
            if wanted > 2:
                yield (turned[0], *reversed(turned[1:]))


class _Judge:
    """Sharp corners, the fold on the mirror line, edges that curve as the source says; then the file's own order."""

    def __init__(self, piece: Piece, outline: Outline, flat: Flat) -> None:
        self.edges = list(piece.edges.values())
        self.mirror = outline.mirror
        self.flat = flat
        self.whole = length(flat)
        self.sign = math.copysign(1.0, area(flat))
        self._known: dict[tuple[int, float, float], float] = {}

    def score(self, guess: Sequence[_Mark]) -> float:
        ahead = [(mark.way - guess[0].way) % self.whole for mark in guess]
        forward = len(guess) < 3 or ahead[1] < ahead[2]
        score = sum(mark.worth for mark in guess) + (0.2 if forward else 0.0) - 0.01 * (guess[0].way / self.whole)
        for at, one in enumerate(guess):
            two = guess[(at + 1) % len(guess)]
            score += self._fit(at, one.way, two.way) if forward else self._fit(at, two.way, one.way)
        return score

    def _fit(self, edge: int, first: float, last: float) -> float:
        key = edge, first, last
        if key not in self._known:
            self._known[key] = self._fits(self.edges[edge], _stretch(self.flat, first, last, self.whole))
        return self._known[key]

    def _fits(self, edge: EdgeSpec, stretch: Flat) -> float:
        """How well a stretch suits an edge."""
        chord = distance(stretch[0], stretch[-1])
        swell = self.sign * area(stretch) / max(chord, 1.0) ** 2
        curve = "" if abs(swell) < CURVED else "outward" if swell > 0 else "inward"
        score = 1.0 if edge.curve == curve else 0.0
        if edge.fold and not curve:
            score += 1.0
        if self.mirror is not None:
            mirror = self.mirror
            lies = all(nearest(mirror, point)[1] <= NEAR for point in (stretch[0], stretch[-1], *stretch))
            if lies or edge.fold:
                score += 3.0 if lies and edge.fold else -3.0
        return score


def _stretch(flat: Flat, first: float, last: float, whole: float) -> Flat:
    if first < last:
        return between(flat, first, last)
    return (*between(flat, first, whole), *between(flat, 0.0, last)[1:])
