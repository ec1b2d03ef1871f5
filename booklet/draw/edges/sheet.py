"""One piece as SVG, every mark numbered and every named edge lettered; y down, one scale for all pieces of a page."""

from __future__ import annotations

import math
from html import escape
from typing import TYPE_CHECKING, NamedTuple

from booklet.draw.edges.room import Room
from booklet.shape.course import along, area, distance, length, nearest

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.shape.course import Point
    from booklet.shape.outline import Outline
    from booklet.shape.piece import PieceShape
    from booklet.shape.seamline import Flat

# Room around a piece for its numbers, in px.
MARGIN = 44.0
# Sizes of type, in px.
NUMBER, MARK, NAME = 10.5, 10.5, 12.5
# How far from its corner, notch or edge a word stands, in px.
OFF_CORNER, OFF_NOTCH = 14.0, 12.0
# Inside the cutting line, then outside; and outside alone, for a piece too narrow for words.
OFF_EDGE, OFF_NARROW = (13.0, 22.0, 31.0, 40.0, -14.0, -24.0), (-14.0, -24.0, -34.0)
# Along an edge or a line its name is tried in the middle first, then to the sides.
PLACES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)


class Sheet(NamedTuple):
    """svg: an element with its size in px; width, height: that size."""

    svg: str
    width: float
    height: float


class _Paper(NamedTuple):
    """From millimetres to px."""

    scale: float
    left: float
    top: float

    def __call__(self, point: Point) -> Point:
        return (point[0] - self.left) * self.scale + MARGIN, (point[1] - self.top) * self.scale + MARGIN

    def all(self, points: Sequence[Point]) -> Flat:
        return tuple(self(point) for point in points)


def sheet(outline: Outline, shape: PieceShape | None, scale: float, title: str) -> Sheet:
    """The piece as its file draws it. shape: with its edges named, or None; scale: px to a millimetre."""
    flat = outline.ring.points()
    if area(flat) < 0:
        flat = flat[::-1]
    xs, ys = zip(*flat, strict=True)
    paper = _Paper(scale, min(xs), min(ys))
    width, height = (max(xs) - min(xs)) * scale + 2 * MARGIN, (max(ys) - min(ys)) * scale + 2 * MARGIN
    room = Room()
    ring = paper.all(flat)
    drawn = [*_seams(outline, shape), *(line.points() for line in outline.lines), outline.grain or ()]
    for line in (ring, *(paper.all(line) for line in drawn if line)):
        room.keep_clear(line)
    words = [
        *_corners(outline, paper, ring, room),
        *_notches(outline, paper, ring, room),
        *_holes(outline, paper, room),
    ]
    names = list(_names(shape, paper, room)) if shape else []
    words += _line_numbers(outline, paper, room)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" width="{_n(width)}" height="{_n(height)}" '
        f'viewBox="0 0 {_n(width)} {_n(height)}"><title>{escape(title)}</title>'
        f'<path class="cloth" d="{_data(ring)}"/>'
        + "".join(f'<path class="cutout" d="{_data(paper.all(line.points()))}"/>' for line in outline.cutouts)
        + "".join(_lines(outline, shape, paper))
        + f'<path class="cut" d="{_data(ring)}"/>'
        + "".join((*names, *words))
        + "</svg>"
    )
    return Sheet(svg, width, height)


def _n(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _data(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _lines(outline: Outline, shape: PieceShape | None, paper: _Paper) -> Iterator[str]:
    for seam in _seams(outline, shape):
        yield f'<path class="seam" d="{_data(paper.all(seam))}"/>'
    for line in outline.lines:
        yield f'<path class="inner" d="{_data(paper.all(line.points()))}"/>'
    if outline.grain:
        one, two = paper.all(outline.grain)
        yield f'<path class="grain" d="{_data((one, two))}"/>'
        yield f'<path class="head" d="{_head(two, one)}{_head(one, two)}"/>'
    if outline.mirror:
        yield f'<path class="fold" d="{_data(paper.all(outline.mirror))}"/>'


def _seams(outline: Outline, shape: PieceShape | None) -> list[Flat]:
    """Ours, of the edges that are named; those of the file where none are."""
    if shape is None:
        return [line.points() for line in outline.sew]
    return [edge.seam for edge in shape.edges.values() if edge.allowance]


def _head(start: Point, tip: Point) -> str:
    """An open arrowhead."""
    angle = math.atan2(tip[1] - start[1], tip[0] - start[0])
    wings = [(tip[0] - 7 * math.cos(angle + lean), tip[1] - 7 * math.sin(angle + lean)) for lean in (0.4, -0.4)]
    return _data((wings[0], tip, wings[1]))


def _corners(outline: Outline, paper: _Paper, ring: Flat, room: Room) -> Iterator[str]:
    for number, corner in enumerate(outline.corners, 1):
        at = paper(corner)
        x, y = _outside(ring, at, OFF_CORNER)
        room.take(x, y, 9, 9)
        yield (
            f'<circle class="spot" cx="{_n(at[0])}" cy="{_n(at[1])}" r="2.6"/>'
            f'<g class="corner"><circle cx="{_n(x)}" cy="{_n(y)}" r="8"/>'
            f'<text x="{_n(x)}" y="{_n(y + 3.7)}">{number}</text></g>'
        )


def _notches(outline: Outline, paper: _Paper, ring: Flat, room: Room) -> Iterator[str]:
    for number, notch in enumerate(outline.notches, 1):
        at = paper(notch.at)
        inner = _outside(ring, at, -max(6.0, min(12.0, notch.depth * paper.scale)))
        x, y = _outside(ring, at, OFF_NOTCH)
        across, down = (y - at[1]) / OFF_NOTCH, (at[0] - x) / OFF_NOTCH
        spots = [(x + across * aside, y + down * aside) for aside in (0.0, 8.0, -8.0, 15.0, -15.0, 22.0, -22.0)]
        x, y = next((spot for spot in spots if room.free(*spot, 8, 6)), spots[0])
        room.take(x, y, 8, 6)
        yield f'<path class="notch" d="{_data((at, inner))}"/>{_mark(f"n{number}", x, y)}'


def _mark(words: str, x: float, y: float) -> str:
    return f'<text class="mark" x="{_n(x)}" y="{_n(y + 3.6)}">{words}</text>'


def _holes(outline: Outline, paper: _Paper, room: Room) -> Iterator[str]:
    for number, hole in enumerate(outline.holes, 1):
        x, y = paper(hole)
        spots = [(x + 12, y - 9), (x - 12, y - 9), (x + 12, y + 9), (x - 12, y + 9), (x + 15, y), (x - 15, y)]
        fits = [spot for spot in spots if room.clear(*spot, 8, 6)]
        words = (fits or [spot for spot in spots if room.free(*spot, 8, 6)] or spots)[0]
        room.take(*words, 8, 6)
        yield f'<circle class="hole" cx="{_n(x)}" cy="{_n(y)}" r="2.4"/>{_mark(f"d{number}", *words)}'


def _line_numbers(outline: Outline, paper: _Paper, room: Room) -> Iterator[str]:
    for number, line in enumerate(outline.lines, 1):
        points = paper.all(line.points())
        spots = [along(points, length(points) * place) for place in PLACES]
        x, y = next((spot for spot in spots if room.free(*spot, 8, 6)), spots[0])
        room.take(x, y, 8, 6)
        yield _mark(f"l{number}", x, y)


def _names(shape: PieceShape, paper: _Paper, room: Room) -> Iterator[str]:
    """Along each edge, inside where there is room, and upright."""
    longest = sorted(shape.edges.values(), key=lambda edge: -edge.length)
    ring = paper.all(shape.cut)
    narrow = 2 * abs(area(ring)) / length(ring) < 4 * NAME
    for edge in longest:
        points = paper.all(edge.cut)
        half = len(edge.name) * NAME * 0.27
        inward = -1 if shape.backwards else 1
        spots = [
            _beside(points, place, off * inward) for off in (OFF_NARROW if narrow else OFF_EDGE) for place in PLACES
        ]
        fits = [spot for spot in spots if room.clear_along(*spot, half, 6)]
        fits = fits or [spot for spot in spots if room.free_along(*spot, half, 6)] or spots
        x, y, angle = fits[0]
        room.take_along(x, y, angle, half, 6)
        turned = f' transform="rotate({_n(math.degrees(angle))} {_n(x)} {_n(y)})"' if abs(angle) > 0.01 else ""
        yield f'<text class="name" x="{_n(x)}" y="{_n(y + 4)}"{turned}>{escape(edge.name)}</text>'


def _beside(points: Flat, share: float, off: float) -> tuple[float, float, float]:
    """A place beside a line, to the right of travel, and the angle at which words read along it, upright."""
    whole = length(points)
    reach = min(whole / 4, 15.0)
    x, y = along(points, whole * share)
    before, after = along(points, whole * share - reach), along(points, whole * share + reach)
    across, down = after[0] - before[0], after[1] - before[1]
    size = math.hypot(across, down) or 1.0
    angle = math.atan2(down, across)
    if not -math.pi / 2 - 1e-6 < angle <= math.pi / 2 - 1e-6:
        angle -= math.copysign(math.pi, angle)
    return x - down / size * off, y + across / size * off, angle


def _outside(ring: Flat, at: Point, off: float) -> Point:
    """Away from the piece at a place of its cutting line, square to it, or half way between its two directions."""
    way, whole = nearest(ring, at)[0], length(ring)
    normals = []
    for one, two in ((way - 3.0, way - 0.2), (way + 0.2, way + 3.0)):
        start, end = along(ring, one % whole), along(ring, two % whole)
        size = distance(start, end) or 1.0
        normals.append(((end[1] - start[1]) / size, (start[0] - end[0]) / size))
    across, down = (sum(values) for values in zip(*normals, strict=True))
    size = math.hypot(across, down)
    if size < 0.2:
        across, down, size = normals[0][0], normals[0][1], 1.0
    return at[0] + across / size * off, at[1] + down / size * off


def scale_for(outlines: Sequence[Outline], across: float, down: float, most: float) -> float:
    """px to a millimetre, so that the largest of them fits."""
    widest, tallest = 1.0, 1.0
    for outline in outlines:
        xs, ys = zip(*outline.ring.points(), strict=True)
        widest, tallest = max(widest, max(xs) - min(xs)), max(tallest, max(ys) - min(ys))
    return min(most, (across - 2 * MARGIN) / widest, (down - 2 * MARGIN) / tallest)
