"""A drafted piece: its seam lines edge by edge, and the cutting line that follows from their allowances."""

from __future__ import annotations

import itertools
import math
from typing import NamedTuple

from steps.drafting.path import Path, Point, Stretch, ahead, joint, meeting

# How deep a notch is snipped, in millimetres. Common practice, no source: a third to a half of the allowance.
SNIP = 6.0
# Between the two of a double notch, in millimetres. Our choice.
PAIR = 8.0


class Edge(NamedTuple):
    """line: its seam line, on a fold the fold, on a raw edge the cutting line; allowance: outward from it.

    folded: turned up along its seam line, so that its ends are shaped like the sides that it will lie on; smooth: no
    corner marks where it begins; sewn: whether its seam line is drawn; sewing: that line, where it is shorter.
    """

    name: str
    line: Path
    allowance: float
    folded: bool = False
    smooth: bool = False
    sewn: bool = True
    sewing: Path | None = None


class Mark(NamedTuple):
    """A notch of an edge: so far along its seam line, counted from the edge's start (from its end where negative)."""

    edge: str
    way: float
    double: bool = False


class Drafted(NamedTuple):
    """A piece in one size. Its edges run clockwise or anticlockwise, one way all round."""

    name: str
    size: str
    quantity: str
    edges: tuple[Edge, ...]
    marks: tuple[Mark, ...] = ()
    lines: tuple[Path, ...] = ()
    dots: tuple[Point, ...] = ()
    grain: tuple[Point, Point] | None = None

    @property
    def outside(self) -> float:
        """+1 where outside lies to the left of travel (clockwise on paper), -1 to the right."""
        points = [stretch.start for edge in self.edges for stretch in edge.line.stretches]
        area = math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, (*points[1:], points[0]), strict=True))
        return 1.0 if area > 0 else -1.0

    def edge(self, name: str) -> Path:
        return next(edge.line for edge in self.edges if edge.name == name)


class Cut(NamedTuple):
    """The cutting line, closed; corners: its turn points in their order, beginning with the first edge's; fold: the
    line on which the piece is mirrored."""

    ring: Path
    corners: tuple[Point, ...]
    fold: tuple[Point, Point] | None


def cut(piece: Drafted) -> Cut:
    """The seam lines moved outward."""
    outside = piece.outside
    moved = [_moved(edge, outside) for edge in piece.edges]
    turns: list[list[Point]] = []
    for at, edge in enumerate(piece.edges):
        before = piece.edges[at - 1]
        if edge.folded or before.folded:
            found = _turned(before, moved[at - 1], edge, moved[at])
        else:
            last, first = joint(moved[at - 1][-1], moved[at][0])
            moved[at - 1][-1:] = last
            moved[at][:1] = first
            found = [] if edge.smooth else [moved[at - 1][-1].end]
        turns.append(found)
    stretches = [stretch for edge in moved for stretch in edge if stretch.chord > 1e-6]
    corners = tuple(point for found in turns for point in found)
    ring = _from(Path(tuple(stretches)), moved[0][0].start)
    return Cut(ring, corners, _fold(piece, ring))


def _fold(piece: Drafted, ring: Path) -> tuple[Point, Point] | None:
    """All of the cutting line that lies on the line x = 0 (a slit in the fold among it)."""
    if all(edge.name != "fold" for edge in piece.edges):
        return None
    levels = [stretch.start[1] for stretch in ring.stretches if abs(stretch.start[0]) < 1e-6]
    return (0.0, max(levels)), (0.0, min(levels))


def _moved(edge: Edge, outside: float) -> list[Stretch]:
    found: list[Stretch] = []
    for stretch in edge.line.stretches:
        moved = stretch.beside(outside * edge.allowance) if edge.allowance else stretch
        if found:
            before, after = joint(found[-1], moved)
            found[-1:] = before
            found += after
        else:
            found.append(moved)
    return found


def _turned(before: Edge, before_moved: list[Stretch], edge: Edge, moved: list[Stretch]) -> list[Point]:
    """Joins an edge that is turned up along its seam line to its neighbour, and gives the corners there.

    Turned up, its end lies on the neighbour's: from the fold on, the neighbour's line runs as in a mirror.
    """
    if edge.folded:
        side, heading, hem = before_moved[-1].end, before_moved[-1].final_heading, moved[0].start
        hem_heading, fold = edge.line.heading, edge.line.start
    else:
        side, heading, hem = moved[0].start, moved[0].heading + math.pi, before_moved[-1].end
        hem_heading, fold = before.line.final_heading, before.line.end
    on_fold = meeting(side, heading, fold, hem_heading)
    corner = meeting(on_fold, 2 * hem_heading - heading + math.pi, hem, hem_heading)
    square = abs(math.cos(hem_heading - heading)) < 1e-6
    places = [corner] if square else [corner, on_fold]
    if edge.folded:
        before_moved += [Stretch(a, b) for a, b in itertools.pairwise([side, *places[::-1]])]
        moved.insert(0, Stretch(corner, hem))
        return places[::-1]
    before_moved.append(Stretch(hem, corner))
    moved[:0] = [Stretch(a, b) for a, b in itertools.pairwise([*places, side])]
    return places


def _from(ring: Path, start: Point) -> Path:
    """The same ring, begun at a corner."""
    at = min(range(len(ring.stretches)), key=lambda at: math.dist(ring.stretches[at].start, start))
    return Path(ring.stretches[at:] + ring.stretches[:at])


def notches(piece: Drafted) -> list[tuple[Point, Point]]:
    """Every notch: its place on the cutting line, and the end of its snip."""
    found = []
    for mark in piece.marks:
        edge = next(edge for edge in piece.edges if edge.name == mark.edge)
        middle = mark.way + edge.line.length if mark.way < 0 else mark.way
        for way in (middle - PAIR / 2, middle + PAIR / 2) if mark.double else (middle,):
            outward = edge.line.heading_at(way) - math.pi / 2 * piece.outside
            place = ahead(edge.line.at(way), outward, edge.allowance)
            found.append((place, ahead(place, outward, -min(SNIP, edge.allowance / 2))))
    return found
