"""What hands do, as strokes and areas on the laid cloths; everything in millimetres of cloth."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.bend import direction
from booklet.draw.ink import millimetres
from booklet.read.tree import same_name
from booklet.shape.course import Point, along, distance, length

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.length import Length
    from booklet.plan.picture import Mark
    from booklet.shape.seamline import Flat

# How far from an edge or a seam is "close to it"? Common practice, no source: 1/16 to 1/8 in; here in millimetres.
CLOSE = 2.0
# How far do clips stop short of the stitching? Common practice, no source.
SHORT = 1.5
# How wide is a buttonhole drawn where its notion has no size? Our choice.
BUTTON = 12.0


class Stroke(NamedTuple):
    """A line. kind: stitch | baste | cut | chalk | clip | hidden | fold | thin | arrow | zigzag | dots."""

    kind: str
    line: Flat


class Patch(NamedTuple):
    """An area over its cloth: a flap that was folded or pressed. face: the side that shows."""

    face: str
    cloth: str
    area: Any


class Marked(NamedTuple):
    """What one mark draws. work: lines about which it is; measured: lines whose distance is written beside them."""

    patches: tuple[Patch, ...] = ()
    strokes: tuple[Stroke, ...] = ()
    work: tuple[Flat, ...] = ()
    measured: tuple[tuple[Length, Flat], ...] = ()


class Bench(NamedTuple):
    """All sheets by the request's numbers, and the scale that is expected, for what must be seen on paper."""

    sheets: dict[int, Sheet]
    scale: float

    def seen(self, paper_mm: float) -> float:
        """What is so wide on paper, in millimetres of cloth."""
        return paper_mm / self.scale


def marked(mark: Mark, bench: Bench) -> Marked:
    """Nothing where the cloth has none of the edges."""
    sheet = bench.sheets[mark.cloth]
    known = tuple(name for name in mark.edges if name in sheet.lying.shape.edges)
    if mark.edges and not known and mark.kind not in ("dart", "pleat", "tuck"):
        return Marked()
    return _DRAWN.get(mark.kind, _row)(mark._replace(edges=known or mark.edges), sheet, bench)


def _allowances(mark: Mark, sheet: Sheet) -> dict[str, float]:
    return {name: sheet.lying.shape.edges[name].allowance for name in mark.edges}


def _at(mark: Mark, sheet: Sheet) -> dict[str, float]:
    """How far inside the cutting line: as said, else on the seam line."""
    own = _allowances(mark, sheet)
    return {name: float(mark.at.millimetres) if mark.at is not None else own[name] for name in mark.edges}


def _row(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A row of stitching inside the cutting line."""
    rows = sheet.rows(_at(mark, sheet), mark.edges)
    kind = "baste" if mark.kind in ("baste", "gather", "ease") else "stitch"
    strokes = [Stroke(kind, row) for row in rows]
    if mark.kind == "gather":
        second = {name: max(at - 6.0, 2.0) for name, at in _at(mark, sheet).items()}
        strokes += [Stroke(kind, row) for row in sheet.rows(second, mark.edges)]
    measured = ((mark.at, rows[0]),) if mark.at is not None and rows else ()
    return Marked(strokes=tuple(strokes), work=tuple(rows), measured=measured)


def _inside_seam(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Topstitching and its like: so far inside the finished edge or the seam."""
    finished = {*sheet.lying.cloth.sewn, *sheet.lying.cloth.hemmed}
    off = float(mark.at.millimetres) if mark.at is not None else max(CLOSE, bench.seen(0.7))
    own = _allowances(mark, sheet)
    widths = {name: off + (own[name] if name in finished else 0.0) for name in mark.edges}
    rows = sheet.rows(widths, mark.edges)
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
    return tuple(_aside(line, whole * at / number, wide / 2 * (1 if at % 2 else -1)) for at in range(number + 1))


def _aside(line: Flat, way: float, off: float) -> Point:
    """A point beside a line: `off` to the right of its direction."""
    here = along(line, way)
    across, down = direction(line, way)
    return here[0] - down * off, here[1] + across * off


def _inward(sheet: Sheet, line: Flat) -> int:
    """Whether the cloth lies right (1) or left (-1) of a line at its edge."""
    from shapely.geometry import Point as Spot

    whole = length(line)
    for share in (0.5, 0.3, 0.7):
        for side in (1, -1):
            if sheet.area.contains(Spot(_aside(line, whole * share, side * 8.0))) and not sheet.area.contains(
                Spot(_aside(line, whole * share, -side * 8.0))
            ):
                return side
    return 1


def _clips(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Cuts into the allowance; wedges where notches are cut out. No closer on paper than can be seen."""
    own = {name: width - sheet.ends.get(name, 0.0) for name, width in _allowances(mark, sheet).items()}
    edges = sheet.edges(mark.edges)
    every = max(float(mark.at.millimetres) if mark.at is not None else 12.0, bench.seen(1.3))
    deep = max(min(own.values()) - SHORT, 2.0)
    strokes = []
    for edge in edges:
        side = _inward(sheet, edge)
        whole = length(edge)
        number = max(1, round(whole / every))
        for at in range(1, number):
            way = whole * at / number
            tip = _aside(edge, way, side * deep)
            if mark.kind == "clip":
                strokes.append(Stroke("clip", (along(edge, way), tip)))
            else:
                half = min(deep * 0.45, every / 3)
                strokes.append(Stroke("clip", (along(edge, way - half), tip, along(edge, way + half))))
    return Marked(strokes=tuple(strokes), work=tuple(edges))


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
    """The allowances as they lie, where the wrong side shows; and an arrow for the hand."""
    lines = sheet.rows(_allowances(mark, sheet), mark.edges)
    if not lines:
        return Marked()
    left = float(mark.at.millimetres) if mark.at is not None else min(_allowances(mark, sheet).values())
    patches, strokes = [], []
    goal = bench.sheets.get(mark.other)
    sides = [(sheet, 1)] if goal is None or goal is sheet else [(sheet, -1)]
    inward = _inward(sheet, lines[0])
    for line in lines:
        middle = length(line) / 2
        toward = inward * sides[0][1]
        ways = (1, -1) if mark.word == "open" else (toward,)
        far = max(left * 1.6, bench.seen(7.0))
        for way in ways:
            strokes.append(
                Stroke("arrow", (_aside(line, middle, way * bench.seen(0.8)), _aside(line, middle, way * far)))
            )
            if sheet.lying.cloth.face == "wrong":
                band = _band(line, way * left)
                if band is not None:
                    patches.append(Patch("right" if mark.word == "open" else "wrong", sheet.lying.cloth.cloth, band))
        strokes.append(Stroke("thin", line))
    return Marked(tuple(patches), tuple(strokes), tuple(lines))


def _band(line: Flat, off: float) -> Any:
    """The area between a line and its parallel."""
    from shapely.geometry import LineString, Polygon

    other = LineString(line).offset_curve(off, join_style="mitre")
    if other.is_empty or other.geom_type != "LineString":
        return None
    points = [*other.coords]
    if distance(points[0], line[0]) > distance(points[-1], line[0]):
        points.reverse()
    area = Polygon([*line, *reversed(points)])
    return area if area.is_valid else area.buffer(0)


def _hem(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Turned up: what shows of it is the right side; stitched close to the inner fold."""
    own = _allowances(mark, sheet)
    deep = float(mark.more[-1].millimetres) if mark.more else min(own.values())
    folds = sheet.rows(own, mark.edges)
    upper = sheet.rows({name: width + deep for name, width in own.items()}, mark.edges)
    near = max(CLOSE, bench.seen(0.6))
    rows = sheet.rows({name: width + deep - near for name, width in own.items()}, mark.edges)
    patches = []
    face = "right" if sheet.lying.cloth.face == "wrong" else "wrong"
    for fold, top in zip(folds, upper, strict=False):
        from shapely.geometry import Polygon

        flap = Polygon([*fold, *(reversed(top) if distance(fold[0], top[0]) < distance(fold[0], top[-1]) else top)])
        patches.append(Patch(face, sheet.lying.cloth.cloth, flap.buffer(0)))
    strokes = [Stroke("stitch", row) for row in rows]
    measured = ((mark.more[-1], upper[0]),) if mark.more and upper else ()
    return Marked(tuple(patches), tuple(strokes), (*folds, *upper), measured)


def _cut(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    line = sheet.lying.shape.lines.get(mark.word)
    if line is None:
        return Marked()
    placed = sheet.placed([line])
    return Marked(strokes=tuple(Stroke("cut", one) for one in placed), work=tuple(placed))


def _chalk(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    rows = sheet.rows(_allowances(mark, sheet), mark.edges)
    return Marked(strokes=tuple(Stroke("chalk", row) for row in rows), work=tuple(rows))


def _dart(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """One leg is brought to the other and stitched; the fold runs half-way between."""
    strokes: list[Stroke] = []
    work: list[Flat] = []
    darts = {same_name(name): dart for name, dart in sheet.lying.shape.darts.items()}
    for name in mark.edges:
        dart = darts.get(same_name(name))
        if dart is None:
            continue
        one, two = dart.legs
        ends = [one[-1], two[-1]]
        middle = ((one[0][0] + two[0][0]) / 2, (one[0][1] + two[0][1]) / 2)
        tip = dart.point or ((ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2)
        for placed in sheet.placed([one, two]):
            strokes.append(Stroke("stitch" if mark.kind == "dart" else "thin", placed))
            work.append(placed)
        strokes += [Stroke("fold", line) for line in sheet.placed([(middle, tip)])]
        share = 0.45
        hand = (along(one, length(one) * share), along(two, length(two) * share))
        strokes += [Stroke("arrow", line) for line in sheet.placed([hand])]
    return Marked(strokes=tuple(strokes), work=tuple(work))


def _fuse(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    inner = sheet.area.buffer(-max(3.0, bench.seen(0.5)))
    patches = (Patch("interfacing", "interfacing", inner),) if not inner.is_empty else ()
    return Marked(patches=patches, work=(_frame(sheet.area.bounds),))


def _frame(bounds: tuple[float, float, float, float]) -> Flat:
    left, top, right, bottom = bounds
    return (left, top), (right, bottom)


def _fastenings(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Buttons or buttonholes along an edge, evenly, as many as are asked for."""
    lines = sheet.rows(_at(mark, sheet), mark.edges)[:1]
    strokes = []
    number = max(int(mark.word or 3), 1)
    size = max(float(mark.more[0].millimetres) if mark.more else BUTTON, bench.seen(1.6))
    for line in lines:
        side = _inward(sheet, line)
        for at in range(number):
            way = length(line) * (at + 0.5) / number
            if mark.kind == "buttonhole":
                strokes.append(Stroke("stitch", (_aside(line, way, side * size * 0.2), _aside(line, way, side * size))))
            else:
                centre = _aside(line, way, side * size * 0.6)
                ring = [
                    (
                        centre[0] + size / 2 * math.cos(turn / 8 * math.pi),
                        centre[1] + size / 2 * math.sin(turn / 8 * math.pi),
                    )
                    for turn in range(17)
                ]
                strokes.append(Stroke("thin", tuple(ring)))
    return Marked(strokes=tuple(strokes), work=tuple(lines))


def _close(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Small slanting stitches by hand, over the edge."""
    lines = sheet.rows(_allowances(mark, sheet), mark.edges)
    step, size = max(4.0, bench.seen(1.4)), max(3.0, bench.seen(0.9))
    strokes = [
        Stroke("hand", (_aside(line, at * step, -size / 2), _aside(line, at * step + step * 0.4, size / 2)))
        for line in lines
        for at in range(1, max(2, int(length(line) / step)))
    ]
    return Marked(strokes=tuple(strokes), work=tuple(lines))


_DRAWN: dict[str, Callable[[Mark, Sheet, Bench], Marked]] = {
    "topstitch": _inside_seam,
    "edgestitch": _inside_seam,
    "understitch": _inside_seam,
    "finish": _finish,
    "clip": _clips,
    "notch": _clips,
    "trim": _trim,
    "press": _press,
    "hem": _hem,
    "casing": _hem,
    "cut": _cut,
    "mark": _chalk,
    "dart": _dart,
    "pleat": _dart,
    "tuck": _dart,
    "fuse": _fuse,
    "button": _fastenings,
    "buttonhole": _fastenings,
    "close": _close,
}


def needed(mark: Mark) -> float:
    """How wide on paper its detail must be to be seen, in millimetres."""
    return millimetres("pieces", "edge") * (3 if mark.kind in ("clip", "notch", "trim") else 1)
