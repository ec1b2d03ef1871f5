"""What hands do, as strokes and areas on the laid cloths; everything in millimetres of cloth."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING, Any

from booklet.draw.flat import fastened, folds, signs, strips
from booklet.draw.flat.apart import rows_of, second_of
from booklet.draw.flat.bend import direction
from booklet.draw.flat.strokes import (
    Bench,
    Marked,
    Patch,
    Stroke,
    allowances,
    aside,
    band_beside,
    inward,
)
from booklet.draw.flat.view import lines_of
from booklet.draw.ink import millimetres
from booklet.shape.course import along, distance, length
from booklet.shape.meet import ends_of

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import Mark
    from booklet.shape.seamline import Flat

# How far do clips stop short of the stitching? Common practice, no source.
SHORT = 1.5


# How far may a row reach beyond its cloth, in millimetres of cloth? Our choice: less than its line is wide.
OVER = 1.0
# Lines that lie on the cloth from end to end.
_ROWS = frozenset({"stitch", "baste", "hidden", "chalk", "thin", "fold"})
# How straight does an edge go on, as the cosine of the turn? Our choice: 25 degrees.
STRAIGHT = 0.9
# Marks whose names may be those of darts, pleats or tucks, or of marked lines.
_OF_LINES = frozenset({"dart", "dart pressed", "mark dart", "pleat", "tuck", "placket", "welt"})


def marked(mark: Mark, bench: Bench) -> Marked:
    """Nothing where the cloth has none of the edges."""
    sheet = bench.sheets[mark.cloth]
    known = tuple(name for name in mark.edges if name in sheet.lying.shape.edges)
    if mark.edges and not known and mark.kind not in _OF_LINES:
        return Marked()
    made = _within(_DRAWN.get(mark.kind, _row)(mark._replace(edges=known or mark.edges), sheet, bench), sheet)
    return _on_the_cloth(made, sheet) if sheet.lying.cloth.halved else made


def _within(made: Marked, sheet: Sheet) -> Marked:
    """Rows end where the cloth does: one far inside an edge would run on past a neighbour that is not square to it."""
    from shapely import LineString, prepare

    prepare(sheet.area)
    grown: list[Any] = []

    def cut(line: Flat) -> Iterator[Flat]:
        row = LineString(line)
        if sheet.area.covers(row):
            yield line
            return
        if not grown:
            grown.append(sheet.area.buffer(OVER))
            prepare(grown[0])
        if grown[0].covers(row):
            yield line
        else:
            yield from lines_of(row.intersection(grown[0]), OVER)

    strokes: list[Stroke] = []
    for stroke in made.strokes:
        long = stroke.kind in _ROWS and len(stroke.line) > 1
        strokes += [Stroke(stroke.kind, line) for line in cut(stroke.line)] if long else [stroke]
    measured = tuple((at, max(cut(line), key=length, default=line)) for at, line in made.measured)
    return made._replace(strokes=tuple(strokes), measured=measured)


def _on_the_cloth(made: Marked, sheet: Sheet) -> Marked:
    """Of a piece that lies folded, only what is on the half that shows."""
    from shapely import Point

    near = sheet.area.buffer(3.0)

    def kept(line: Flat) -> bool:
        return bool(near.contains(Point(along(line, length(line) / 2))))

    strokes = tuple(stroke for stroke in made.strokes if stroke.kind in ("arrow", "trim") or kept(stroke.line))
    measured = tuple(one for one in made.measured if kept(one[1]))
    return Marked(made.patches, strokes, tuple(line for line in made.work if kept(line)), measured)


def _row(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A row of stitching inside the cutting line."""
    rows = sheet.rows(rows_of(mark, sheet, bench), mark.edges)
    kind = "baste" if mark.kind in ("baste", "gather", "ease") else "stitch"
    strokes = [Stroke(kind, row) for row in rows]
    if mark.kind == "gather":
        second = rows_of(mark, sheet, bench, second_of(mark, sheet))
        strokes += [Stroke(kind, row) for row in sheet.rows(second, mark.edges)]
    said = mark.more[0] if mark.more else mark.at
    measured = ((said, rows[0]),) if said is not None and rows else ()
    return Marked(strokes=tuple(strokes), work=tuple(rows), measured=measured)


def _inside_seam(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Topstitching and its like: so far inside the finished edge or the seam."""
    rows = sheet.rows(rows_of(mark, sheet, bench), mark.edges)
    measured = ((mark.at, rows[0]),) if mark.at is not None and rows else ()
    return Marked(strokes=tuple(Stroke("stitch", row) for row in rows), work=tuple(rows), measured=measured)


def _finish(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    edges = sheet.edges(mark.edges)
    deep = max(4.0, bench.seen(0.9))
    rows = sheet.rows({name: sheet.ends.get(name, 0.0) + deep / 2 for name in mark.edges}, mark.edges)
    step = max(3.0, bench.seen(0.75))
    return Marked(strokes=tuple(Stroke("zigzag", _zigzag(row, deep * 0.75, step)) for row in rows), work=tuple(edges))


def _zigzag(line: Flat, wide: float, step: float) -> Flat:
    whole = length(line)
    number = max(2, int(whole / step))
    return tuple(aside(line, whole * at / number, wide / 2 * (1 if at % 2 else -1)) for at in range(number + 1))


def _clips(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Cuts into the allowance; wedges where notches are cut out. No closer on paper than can be seen."""
    own = {name: width - sheet.ends.get(name, 0.0) for name, width in allowances(mark, sheet).items()}
    edges = sheet.edges(mark.edges)
    if mark.word == "open":
        # Cut down the fold: one line, though it lies on both halves.
        return Marked(strokes=tuple(Stroke("cut", edge) for edge in edges[:1]), work=tuple(edges[:1]))
    if mark.word == "to the stitching":
        return _clip_at_ends(mark, sheet, min(own.values()))
    if mark.word == "corners":
        return _clip_corners(mark, sheet)
    every = max(float(mark.at.millimetres) if mark.at is not None else 12.0, bench.seen(1.3))
    deep = max(min(own.values()) - SHORT, 2.0)
    strokes = []
    for edge in edges:
        side = inward(sheet, edge)
        whole = length(edge)
        number = max(1, round(whole / every))
        for at in range(1, number):
            way = whole * at / number
            tip = aside(edge, way, side * deep)
            if mark.kind == "clip":
                strokes.append(Stroke("clip", (along(edge, way), tip)))
            else:
                half = min(deep * 0.45, every / 3)
                strokes.append(Stroke("clip", (along(edge, way - half), tip, along(edge, way + half))))
    return Marked(strokes=tuple(strokes), work=tuple(edges))


def _clip_at_ends(mark: Mark, sheet: Sheet, deep: float) -> Marked:
    """One clip where the stitching ends and the edge goes straight on: at the top of a vent."""
    shape, clips = sheet.lying.shape, []
    for name in mark.edges:
        for at, neighbour in zip((0, -1), ends_of(shape, name), strict=True):
            if neighbour not in mark.edges and _straight_on(shape.edges[name].cut, shape.edges[neighbour].cut, at):
                end, side = shape.edges[name].cut[at], -1.0 if shape.backwards else 1.0
                way = length(shape.edges[name].cut) if at else 0.0
                clips.append((end, aside(shape.edges[name].cut, way, side * deep)))
    placed = sheet.placed(clips)
    return Marked(strokes=tuple(Stroke("clip", line) for line in placed), work=tuple(placed))


def _clip_corners(mark: Mark, sheet: Sheet) -> Marked:
    """The corner of the allowance cut off aslant: where two stitched edges meet, or where one ends at a fold."""
    shape, cuts = sheet.lying.shape, []
    inner = -1.0 if shape.backwards else 1.0
    for name in mark.edges:
        line, deep = shape.edges[name].cut, shape.edges[name].allowance
        ends = sheet.ends.get(name, 0.0)
        for at, neighbour in zip((0, -1), ends_of(shape, name), strict=True):
            way = deep if at == 0 else length(line) - deep
            here = aside(line, way, inner * ends)
            if sheet.lying.cloth.halved and _straight_on(line, shape.edges[neighbour].cut, at):
                cuts.append((here, aside(line, 0.0 if at == 0 else length(line), inner * (ends + deep))))
            elif neighbour in mark.edges and at == -1:
                other = shape.edges[neighbour].cut
                cuts.append((here, aside(other, deep, inner * sheet.ends.get(neighbour, 0.0))))
    placed = sheet.placed(cuts)
    return Marked(strokes=tuple(Stroke("cut", line) for line in placed), work=tuple(placed))


def _straight_on(one: Flat, two: Flat, at: int) -> bool:
    """Whether a line goes on into its neighbour, at its start (0) or its end (-1), without a corner."""
    here = direction(one, length(one) if at else 0.0)
    there = direction(two, 0.0 if at else length(two))
    return here[0] * there[0] + here[1] * there[1] > STRAIGHT


def _trim(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """What of the allowance is cut away, dashed; the cloth itself ends where it is cut."""
    edges = sheet.edges(mark.edges)
    gone = sheet.rows(dict.fromkeys(mark.edges, 0.0), mark.edges)
    strokes = [
        Stroke("trim", (edge[0], *line, edge[-1]))
        for edge, line in zip(edges, gone, strict=False)
        if distance(edge[0], line[0]) > 0.5
    ]
    return Marked(strokes=tuple(strokes), work=(*edges, *gone))


def _press(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """The allowances as they lie on this cloth, where its wrong side shows; and an arrow for the hand."""
    seams = sheet.rows(allowances(mark, sheet), mark.edges)
    left = float(mark.at.millimetres) if mark.at is not None else min(allowances(mark, sheet).values())
    cloth = sheet.lying.cloth
    # Pressed open, the piece's own allowance shows its right side; pressed over, the other's shows its wrong side.
    face = "right" if mark.word == "open" else "wrong"
    patches, strokes = [], []
    longest = max(seams, key=length, default=())
    for seam in seams:
        side, middle = inward(sheet, seam), length(seam) / 2
        if seam is longest:
            far = max(left * 1.6, bench.seen(7.0))
            start = bench.seen(0.8) if mark.word == "open" else -bench.seen(2.0)
            strokes.append(Stroke("arrow", (aside(seam, middle, side * start), aside(seam, middle, side * far))))
        if cloth.face == "wrong":
            band = band_beside(seam, side * left)
            if band is not None:
                patches.append(Patch(face, cloth.cloth, band.intersection(sheet.area)))
        strokes.append(Stroke("thin", seam))
    return Marked(tuple(patches), tuple(strokes), tuple(seams))


def _cut(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    line = sheet.lying.shape.lines.get(mark.word)
    if line is None:
        return Marked()
    placed = sheet.placed([line])
    return Marked(strokes=tuple(Stroke("cut", one) for one in placed), work=tuple(placed))


def _fuse(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    inner = sheet.area.buffer(-max(3.0, bench.seen(0.5)))
    patches = (Patch("interfacing", "interfacing", inner),) if not inner.is_empty else ()
    return Marked(patches=patches, work=(_frame(sheet.area.bounds),))


def _frame(bounds: tuple[float, float, float, float]) -> Flat:
    left, top, right, bottom = bounds
    return (left, top), (right, bottom)


_DRAWN: dict[str, Callable[[Mark, Sheet, Bench], Marked]] = {
    "topstitch": _inside_seam,
    "edgestitch": _inside_seam,
    "understitch": _inside_seam,
    "finish": _finish,
    "clip": _clips,
    "notch": _clips,
    "trim": _trim,
    "press": _press,
    "turn in": folds.turn_in,
    "flap": folds.flap,
    "turned": folds.turned,
    "hem": folds.hem,
    "casing": folds.hem,
    "insert": folds.hem,
    "stitch in the ditch": _row,
    "fell": folds.fell,
    "bind": strips.bound,
    "placket": strips.placket,
    "welt": strips.welt,
    "cut": _cut,
    "mark": signs.chalk,
    "mark dart": signs.chalk_dart,
    "mark dots": signs.dots,
    "buttonhole on dots": fastened.buttonholes_on_dots,
    "mark all": signs.everything,
    "notches": signs.notches,
    "pins": signs.pins,
    "gathers": signs.gathers,
    "dart": folds.dart,
    "dart pressed": folds.dart_pressed,
    "pleat": folds.dart,
    "tuck": folds.dart,
    "fuse": _fuse,
    "button": fastened.fastenings,
    "buttonhole": fastened.fastenings,
    "snap": fastened.fastenings,
    "hook": fastened.fastenings,
    "loop": fastened.loops,
    "zipper": fastened.zipper,
    "close": fastened.by_hand,
    "slipstitch": fastened.by_hand,
    "tack": fastened.tack,
}


def needed(mark: Mark) -> float:
    """How wide on paper its detail must be to be seen, in millimetres."""
    return millimetres("pieces", "edge") * (3 if mark.kind in ("clip", "notch", "trim") else 1)
