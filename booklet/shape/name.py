"""Gives the edges of an outline their names: from the piece's edges in their order and the corners where they begin."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from booklet.shape.course import TOLERANCE, area, between, distance, length, nearest
from booklet.shape.drawn import drawn_allowances
from booklet.shape.outline import BadOutline
from booklet.shape.piece import PieceShape, ShapedDart, ShapedEdge, shaped_edges

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Dart, Piece
    from booklet.read.tree import Text
    from booklet.shape.course import Point
    from booklet.shape.outline import Outline
    from booklet.shape.seamline import Flat

# How near the cutting line must a notch or a dot lie to belong to it, in millimetres? Our choice.
NEAR = 3.0


def shape_of(piece: Piece, outline: Outline, tolerance: float = TOLERANCE) -> PieceShape:
    """The outline with its edges named, its curves flattened within the tolerance.

    Raises BadOutline where the edges can't be told.
    """
    ring = outline.ring.points(tolerance)
    if distance(ring[0], ring[-1]) > 1e-6:
        ring = (*ring, ring[0])
    clockwise = area(ring[:-1]) > 0
    starts, backwards = _in_order(piece, [nearest(ring, point)[0] for point in _starts(piece, outline)], length(ring))
    specs = list(piece.edges.values())
    named = {}
    for at, spec in enumerate(specs):
        width = 0.0 if spec.fold else float(spec.allowance.millimetres)
        named[spec.name] = (_stretch(ring, starts[at], starts[(at + 1) % len(starts)], backwards), width)
    edges = shaped_edges(named, backwards == clockwise)
    _set_notches(edges, outline)
    for name, drawn in drawn_allowances(edges, outline.sew, backwards != clockwise).items():
        edges[name].drawn = drawn
    fold = next((edges[spec.name].cut for spec in specs if spec.fold), None)
    return PieceShape(
        piece.name,
        outline.size,
        edges,
        backwards == clockwise,
        fold=outline.mirror or ((fold[0], fold[-1]) if fold else None),
        grain=outline.grain,
        lines={name: _line(piece, outline, mark, tolerance) for name, mark in piece.drawn_lines.items()},
        darts={dart.name: _dart(piece, outline, dart, tolerance) for dart in piece.darts.values() if dart.drawn},
        holes=outline.holes,
    )


def _starts(piece: Piece, outline: Outline) -> list[Point]:
    """Where each edge begins."""
    if piece.corners:
        if len(piece.corners) != len(piece.edges):
            raise BadOutline(
                f"The {piece.name} has {len(piece.edges)} edges, and “corners” says where {len(piece.corners)} begin.",
                "Write one corner for each edge, in the order of “edges”; notchbook edges draws the numbers.",
                "edges-not-told",
                piece.corners[0].place,
            )
        return [_marked(piece, outline, mark) for mark in piece.corners]
    if len(piece.edges) == 1:
        return [outline.ring.start]
    if len(outline.corners) != len(piece.edges):
        raise BadOutline(
            f"The {piece.name} has {len(piece.edges)} edges, and its outline {len(outline.corners)} corners.",
            f"Write under {piece.name} at which corner each edge begins, as in corners: [1, 2, 4]; "
            "notchbook edges draws the numbers.",
            "edges-not-told",
        )
    return list(outline.corners)


def _marked(piece: Piece, outline: Outline, written: Text) -> Point:
    """`3`: the third corner; `n2`: the second notch; `d1`: the first dot."""
    mark = written.value.strip().lower()
    kind, number = (mark[0], mark[1:]) if mark[:1] in ("n", "d") else ("", mark)
    rows: Sequence[Point] = {
        "": outline.corners,
        "n": [notch.at for notch in outline.notches],
        "d": outline.holes,
    }[kind]
    if not number.isdecimal() or not 0 < int(number) <= len(rows):
        called = {"": "corners", "n": "notches", "d": "dots"}[kind]
        raise BadOutline(
            f"“{mark[:20]}” is no place on the outline of the {piece.name}, which has {_number(len(rows), called)}.",
            "Look at the numbers that notchbook edges draws: 3 is a corner, n3 a notch, d3 a dot, l3 an inner line.",
            "unknown-mark",
            written.place,
        )
    return rows[int(number) - 1]


def _in_order(piece: Piece, starts: list[float], whole: float) -> tuple[list[float], bool]:
    """The starts, and whether the writer goes round against the file's direction."""
    if len(starts) < 2:
        return starts, False
    ahead = [(start - starts[0]) % whole for start in starts]
    if len(starts) == 2 or all(a < b for a, b in itertools.pairwise(ahead)):
        return starts, False
    back = [(starts[0] - start) % whole for start in starts]
    if all(a < b for a, b in itertools.pairwise(back)):
        return starts, True
    raise BadOutline(
        f"The corners of the {piece.name} don't follow each other round its outline.",
        "Write them in the order of the edges, all the way round; notchbook edges draws the numbers.",
        "edges-not-told",
        piece.corners[0].place if piece.corners else None,
    )


def _stretch(ring: Flat, first: float, last: float, backwards: bool) -> Flat:
    if backwards:
        return _stretch(ring, last, first, False)[::-1]
    if first < last:
        return between(ring, first, last)
    head, tail = between(ring, first, length(ring)), between(ring, 0.0, last)
    if length(head) < 1e-6:
        return tail
    return head if length(tail) < 1e-6 else (*head, *tail[1:])


def _set_notches(edges: dict[str, ShapedEdge], outline: Outline) -> None:
    """Each notch with the edge that it lies nearest to."""
    for notch in outline.notches:
        offs = [(nearest(edge.cut, notch.at)[1], edge) for edge in edges.values()]
        off, edge = min(offs, key=lambda each: each[0])
        if off <= NEAR:
            edge.notches = (*edge.notches, (nearest(edge.seam, notch.at)[0], notch))


def _number(number: int, called: str) -> str:
    if number == 1:
        called = "notch" if called == "notches" else called.removesuffix("s")
    return f"{number or 'no'} {called}"


def _line(piece: Piece, outline: Outline, written: Text, tolerance: float) -> Flat:
    mark = written.value.strip().lower()
    number = mark[1:]
    if mark[:1] != "l" or not number.isdecimal() or not 0 < int(number) <= len(outline.lines):
        raise BadOutline(
            f"“{mark[:20]}” is no inner line of the {piece.name}, which has {len(outline.lines) or 'none'}.",
            "Look at the numbers that notchbook edges draws: l1 is the first inner line.",
            "unknown-mark",
            written.place,
        )
    return outline.lines[int(number) - 1].points(tolerance)


def _dart(piece: Piece, outline: Outline, dart: Dart, tolerance: float) -> ShapedDart:
    """Two inner lines, or one that runs from the edge to the point and back."""
    marks = {mark: mark.value.strip().lower().startswith("l") for mark in dart.drawn}
    lines = [_line(piece, outline, mark, tolerance) for mark, is_line in marks.items() if is_line]
    points = [_marked(piece, outline, mark) for mark, is_line in marks.items() if not is_line]
    if len(lines) == 1 and len(lines[0]) >= 3 and dart.kind == "dart":
        line = lines[0]
        turn = max(range(len(line)), key=lambda at: distance(line[at], line[0]) + distance(line[at], line[-1]))
        return ShapedDart(dart.name, (line[: turn + 1], line[turn:][::-1]), line[turn])
    if len(lines) != 2:
        raise BadOutline(
            f"The {dart.name} of the {piece.name} needs two inner lines, "
            + ("one a leg." if dart.kind == "dart" else "those that come together."),
            "Write both, as in drawn: [l1, l2]; notchbook edges draws the numbers.",
            "unknown-mark",
            dart.drawn[0].place,
        )
    if dart.kind != "dart":
        return ShapedDart(dart.name, (lines[0], lines[1]), None)
    tip = points[0] if points else _shared_end(lines[0], lines[1])
    return ShapedDart(dart.name, (_toward(lines[0], tip), _toward(lines[1], tip)), tip)


def _shared_end(one: Flat, two: Flat) -> Point:
    return min(((a, b) for a in (one[0], one[-1]) for b in (two[0], two[-1])), key=lambda ends: distance(*ends))[0]


def _toward(line: Flat, tip: Point) -> Flat:
    return line if distance(line[-1], tip) <= distance(line[0], tip) else line[::-1]
