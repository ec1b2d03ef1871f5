"""Marks of what fastens: buttons and buttonholes, loops, and stitches by hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.flat.signs import ON_FOLD, named_dots, ring
from booklet.draw.flat.strokes import Bench, Marked, Stroke, allowances, aside, inward
from booklet.shape.course import length, nearest

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import Mark
    from booklet.shape.seamline import Flat

# How wide is a button or buttonhole drawn where its notion has no size? Our choice.
BUTTON = 12.0
# Half of a zip's width, tape and teeth, in millimetres. Common practice, no source: for a zip of size 3 to 5.
TAPE = 13.0
# How long is a loop, and how far apart are its legs, for a button that is one wide? Common practice, no source.
LOOP_LONG, LOOP_WIDE = 1.3, 0.7


def fastenings(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Buttons or buttonholes along an edge, evenly, as many as are asked for."""
    size = max(float(mark.more[0].millimetres) if mark.more else BUTTON, bench.seen(1.8))
    strokes: list[Stroke] = []
    lines = _one_side(mark, sheet)
    for line in lines:
        side = inward(sheet, line)
        for way in _spaced(line, mark.many or 1):
            if mark.kind == "buttonhole":
                near, far = aside(line, way, side * size * 0.8), aside(line, way, side * size * 1.9)
                strokes += _buttonhole(near, far, bench)
            else:
                centre = aside(line, way, side * size * 0.8)
                strokes.append(Stroke("cut", ring(centre, size / 2)))
                for off in (-0.12, 0.12):
                    strokes.append(Stroke("cut", ring((centre[0] + off * size, centre[1]), size * 0.03)))
    return Marked(strokes=tuple(strokes), work=tuple(lines))


def buttonholes_on_dots(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """One on each dot that the mark names, upright, its middle on the dot."""
    size = max(float(mark.more[0].millimetres) if mark.more else BUTTON, bench.seen(1.8))
    strokes: list[Stroke] = []
    work: list[Flat] = []
    for dot in named_dots(mark, sheet):
        for ((across, down),) in sheet.placed([(dot,)]):
            ends = (across, down - size / 2), (across, down + size / 2)
            strokes += _buttonhole(*ends, bench)
            work.append(ends)
    return Marked(strokes=tuple(strokes), work=tuple(work))


def _buttonhole(near: tuple[float, float], far: tuple[float, float], bench: Bench) -> list[Stroke]:
    """The cut, and the bead of stitches round it."""
    whole = ((far[0] - near[0]) ** 2 + (far[1] - near[1]) ** 2) ** 0.5
    ux, uy = (far[0] - near[0]) / whole, (far[1] - near[1]) / whole
    wide = bench.seen(0.55)
    corners = [
        (place[0] - uy * off, place[1] + ux * off)
        for place, off in ((near, wide), (far, wide), (far, -wide), (near, -wide), (near, wide))
    ]
    return [Stroke("zigzag", tuple(corners)), Stroke("clip", (near, far))]


def _one_side(mark: Mark, sheet: Sheet) -> list[Flat]:
    """The edge as it is now; of an edge on the fold, or a piece laid out in both halves, the one on the wearer's left
    or right. Right side up, the wearer's left lies on the right."""
    lines = sheet.edges(mark.edges)
    if not sheet.mirror:
        return lines[:1]
    left = [line for line in lines if _on_right(line, sheet) == (sheet.lying.cloth.face == "right")]
    rest = [line for line in lines if line not in left]
    return (left or lines)[:1] if mark.word == "left" else (rest or lines)[-1:]


def _on_right(line: Flat, sheet: Sheet) -> bool:
    assert sheet.centre is not None
    middle = (sheet.centre[0][0] + sheet.centre[1][0]) / 2
    return sum(point[0] for point in line) / len(line) > middle


def _spaced(line: Flat, number: int) -> list[float]:
    return [length(line) * (at + 0.5) / number for at in range(number)]


def loops(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Loops along an edge: their ends on it and they point into the cloth; turned: they stand out over it."""
    edge = sheet.lying.shape.edges[mark.edges[0]]
    fold = sheet.lying.shape.fold
    on_fold = fold is not None and all(nearest(fold, point)[1] < ON_FOLD for point in edge.cut)
    lines = sheet.edges(mark.edges) if mark.word == "turned" else sheet.rows(dict.fromkeys(mark.edges, 0.0), mark.edges)
    if sheet.mirror:
        right = [line for line in lines if on_fold or _on_right(line, sheet) != (sheet.lying.cloth.face == "right")]
        lines = right or lines
    kind = "hidden" if mark.word == "hidden" else "thin"
    strokes: list[Stroke] = []
    for line in lines[:1]:
        side = inward(sheet, line)
        if on_fold and mark.word != "turned":
            # The wearer's right, right side up, lies on the left.
            side = 1 if aside(line, length(line) / 2, 10.0)[0] < line[0][0] else -1
        if mark.word == "turned":
            side = -side
        size = max(BUTTON, bench.seen(2.4))
        for way in _spaced(line, max(mark.many, 1)):
            strokes += [Stroke(kind, one) for one in _loop(line, way, side, size)]
    return Marked(strokes=tuple(strokes), work=tuple(lines[:1]))


def _loop(line: Flat, way: float, side: int, size: float) -> list[Flat]:
    """A narrow tube, bent: its outer and its inner line."""
    import math

    found = []
    for wide in (LOOP_WIDE * size, LOOP_WIDE * size * 0.55):
        reach = LOOP_LONG * size - wide / 2
        curve = [aside(line, way - wide / 2, 0.0)]
        for turn in range(9):
            angle = math.pi * turn / 8
            curve.append(aside(line, way - wide / 2 * math.cos(angle), side * (reach + wide / 2 * math.sin(angle))))
        curve.append(aside(line, way + wide / 2, 0.0))
        found.append(tuple(curve))
    return found


def by_hand(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Small slanting stitches over an edge."""
    lines = sheet.rows(allowances(mark, sheet), mark.edges)
    strokes = [stitch for line in lines for stitch in slanting(line, 0.0, length(line), bench)]
    return Marked(strokes=tuple(strokes), work=tuple(lines))


def tack(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A few stitches by hand at both ends of an edge, where it crosses the seams."""
    lines = sheet.edges(mark.edges)
    strokes: list[Stroke] = []
    few = bench.seen(4.0)
    for line in lines:
        whole = length(line)
        strokes += slanting(line, 0.0, min(few, whole / 2), bench)
        strokes += slanting(line, max(whole - few, whole / 2), whole, bench)
    return Marked(strokes=tuple(strokes), work=tuple(lines))


def slanting(line: Flat, start: float, end: float, bench: Bench) -> list[Stroke]:
    """Stitches by hand over a line, from one way along it to another."""
    step, size = max(4.0, bench.seen(1.4)), max(3.0, bench.seen(0.9))
    number = max(1, int((end - start) / step))
    ways = [start + (end - start) * (at + 0.5) / number for at in range(number)]
    return [
        Stroke("hand", (aside(line, way - step * 0.2, -size / 2), aside(line, way + step * 0.2, size / 2)))
        for way in ways
    ]


def zipper(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Face down along an edge, its tape level with it: the tape, the teeth, and the row that holds it."""
    edges = sheet.edges(mark.edges)
    start = {name: sheet.ends.get(name, 0.0) for name in mark.edges}
    inner = sheet.rows({name: off + 2 * TAPE for name, off in start.items()}, mark.edges)
    teeth = sheet.rows({name: off + TAPE for name, off in start.items()}, mark.edges)
    rows = sheet.rows(allowances(mark, sheet), mark.edges)
    strokes = [Stroke("thin", line) for line in (*edges, *inner)]
    step, tall = max(3.0, bench.seen(0.8)), max(2.0, bench.seen(0.3))
    for line in teeth:
        number = int(length(line) / step)
        ways = [step * (at + 0.5) for at in range(number)]
        strokes += [Stroke("clip", (aside(line, way, -tall), aside(line, way, tall))) for way in ways]
    strokes += [Stroke("stitch", row) for row in rows]
    return Marked(strokes=tuple(strokes), work=(*edges, *inner))
