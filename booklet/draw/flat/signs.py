"""Marks of the paper pattern and of pins: notches, dots, chalk lines, and gathers as they are spread."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from booklet.draw.flat.bend import direction
from booklet.draw.flat.folds import darts_of, tip_of
from booklet.draw.flat.strokes import Bench, Marked, Stroke, allowances, aside, inward
from booklet.shape.course import distance, length, nearest

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import Mark
    from booklet.shape.course import Point
    from booklet.shape.piece import PieceShape, ShapedEdge
    from booklet.shape.seamline import Flat

# How near an end of an edge does a dot mark that end, in millimetres of cloth? Our choice.
NEAR = 25.0
# A line this near to a fold lies on it, in millimetres of cloth.
ON_FOLD = 2.0


def notches(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A short line in from the cutting line for each."""
    shape = sheet.lying.shape
    deep = max(5.0, bench.seen(1.5))
    lines = [
        _inward_from(shape, shape.edges[name].cut, notch.at, deep, sheet.ends.get(name, 0.0))
        for name in mark.edges
        for _, notch in shape.edges[name].notches
    ]
    return Marked(strokes=tuple(Stroke("cut", line) for line in sheet.placed(lines)))


def _inward_from(shape: PieceShape, cut: Flat, at: Point, deep: float, start: float) -> Flat:
    """From the edge as it is now, square to it, into the piece."""
    way = nearest(cut, at)[0]
    side = -1.0 if shape.backwards else 1.0
    return aside(cut, way, side * start), aside(cut, way, side * (start + deep))


def pins(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Across the seam line, closer where the fullness is: at the notches, and evenly between."""
    strokes: list[Stroke] = []
    for name in mark.edges:
        edge = sheet.lying.shape.edges[name]
        for way in _pinned(edge, bench.seen(6.5)):
            line = edge.seam
            out, head = aside(line, way, -bench.seen(0.8)), aside(line, way, bench.seen(1.9))
            for one in sheet.placed([(out, head)]):
                strokes.append(Stroke("thin", one))
                strokes.append(Stroke("thin", ring(one[-1], bench.seen(0.35))))
    return Marked(strokes=tuple(strokes))


def _pinned(edge: ShapedEdge, every: float) -> list[float]:
    ends = [0.0, *sorted(way for way, _ in edge.notches), edge.length]
    found = list(ends[1:-1])
    for start, end in itertools.pairwise(ends):
        number = int((end - start) / every)
        found += [start + (end - start) * at / number for at in range(1, number)]
    return sorted(found)


def ring(centre: Point, radius: float) -> Flat:
    return tuple(
        (centre[0] + radius * math.cos(turn * math.pi / 8), centre[1] + radius * math.sin(turn * math.pi / 8))
        for turn in range(17)
    )


def gathers(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Small folds that run from the seam into the cloth, longer and shorter in turn."""
    strokes: list[Stroke] = []
    for line in sheet.rows(allowances(mark, sheet), mark.edges):
        side, whole = inward(sheet, line), length(line)
        number = max(3, round(whole / bench.seen(1.5)))
        for at in range(number):
            way = whole * (at + 0.5) / number
            deep = bench.seen((4.6, 2.4, 3.6, 1.8, 3.0)[at % 5])
            lean = bench.seen((0.3, -0.25, 0.1, -0.3)[at % 4])
            across, down = direction(line, way)
            foot, tip = aside(line, way, side * bench.seen(0.2)), aside(line, way, side * deep)
            strokes.append(Stroke("clip", (foot, (tip[0] + across * lean, tip[1] + down * lean))))
    return Marked(strokes=tuple(strokes))


def chalk(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """An edge that lies on the fold is drawn down it; another is marked by the dots at its ends, or along its seam."""
    shape = sheet.lying.shape
    strokes: list[Stroke] = []
    work: list[Flat] = []
    for name in mark.edges:
        edge = shape.edges[name]
        on_fold = shape.fold is not None and all(nearest(shape.fold, point)[1] < ON_FOLD for point in edge.cut)
        ends = (edge.cut[0], edge.cut[-1], edge.seam[0], edge.seam[-1])
        dots = [dot for dot in shape.holes if min(distance(dot, end) for end in ends) < NEAR]
        if on_fold or not dots:
            width = 0.0 if on_fold else edge.allowance
            rows = sheet.rows({name: width}, [name])[: 1 if on_fold else None]
            strokes += [Stroke("chalk", row) for row in rows]
            work += rows
        made = _dotted(dots, sheet, bench)
        strokes += made.strokes
        work += made.work
    return Marked(strokes=tuple(strokes), work=tuple(work))


def chalk_dart(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Both lines of a dart, and the dot at its point."""
    strokes: list[Stroke] = []
    work: list[Flat] = []
    for dart in darts_of(mark, sheet):
        for line in sheet.placed(dart.legs):
            strokes.append(Stroke("chalk", line))
            work.append(line)
        strokes += _dotted([tip_of(dart)], sheet, bench).strokes
    return Marked(strokes=tuple(strokes), work=tuple(work))


def dots(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Named dots of the outline: `d4 d5`."""
    return _dotted(named_dots(mark, sheet), sheet, bench)


def named_dots(mark: Mark, sheet: Sheet) -> list[Point]:
    """Those that the mark's word names, of the piece as it is drawn."""
    holes = sheet.lying.shape.holes
    numbers = [int(name.lstrip("d")) - 1 for name in mark.word.split() if name.lstrip("d").isdigit()]
    return [holes[at] for at in numbers if 0 <= at < len(holes)]


def everything(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """All that the paper piece marks: its lines, darts and dots, and the notches of its edges."""
    shape = sheet.lying.shape
    lines = sheet.placed([*shape.lines.values(), *(leg for dart in shape.darts.values() for leg in dart.legs)])
    made = _dotted(list(shape.holes), sheet, bench)
    cuts = notches(mark._replace(edges=tuple(shape.edges)), sheet, bench).strokes
    strokes = (*(Stroke("chalk", line) for line in lines), *made.strokes, *cuts)
    return Marked(strokes=strokes, work=(*lines, *made.work) or tuple(sheet.edges(shape.edges)))


def _dotted(found: list[Point], sheet: Sheet, bench: Bench) -> Marked:
    """A ring and its point."""
    strokes: list[Stroke] = []
    work: list[Flat] = []
    for dot in found:
        for (place,) in sheet.placed([(dot,)]):
            strokes += [Stroke("cut", ring(place, bench.seen(0.75))), Stroke("cut", ring(place, bench.seen(0.15)))]
            work.append((place, place))
    return Marked(strokes=tuple(strokes), work=tuple(work))
