"""Marks that fold cloth over: an allowance pressed in, a hem, a dart that lies down, a felled seam."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.draw.flat.strokes import CLOSE, Bench, Marked, Patch, Stroke, allowances, aside, inward
from booklet.draw.ink import millimetres
from booklet.read.tree import same_name
from booklet.shape.course import along, distance, length, nearest

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.length import Length
    from booklet.plan.picture import Mark
    from booklet.shape.course import Point
    from booklet.shape.piece import ShapedDart
    from booklet.shape.seamline import Flat


def between_lines(one: Flat, two: Flat) -> Any:
    """The area between two lines that run beside each other."""
    from shapely import Polygon

    back = reversed(two) if distance(one[0], two[0]) < distance(one[0], two[-1]) else two
    return Polygon([*one, *back]).buffer(0)


def other_side(sheet: Sheet) -> str:
    return "right" if sheet.lying.cloth.face == "wrong" else "wrong"


def turn_in(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """An allowance folded over at the seam line, with the hand that turns it."""
    made = flap(mark, sheet, bench)
    strokes = []
    for fold in made.work[:1]:
        side = inward(sheet, fold)
        for share in (0.3, 0.7) if length(fold) > bench.seen(24.0) else (0.5,):
            way = length(fold) * share
            hand = (aside(fold, way, -side * bench.seen(2.6)), aside(fold, way, side * bench.seen(4.2)))
            strokes.append(Stroke("arrow", hand))
    return made._replace(strokes=tuple(strokes), measured=((mark.at, made.work[0]),) if mark.at and made.work else ())


def flap(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """What shows of an allowance that lies on the wrong side."""
    own = allowances(mark, sheet)
    folds = sheet.rows(own, mark.edges)
    inner = sheet.rows({name: 2 * width for name, width in own.items()}, mark.edges)
    patches = [
        Patch(other_side(sheet), sheet.lying.cloth.cloth, between_lines(*both).intersection(sheet.area))
        for both in zip(folds, inner, strict=False)
    ]
    return Marked(tuple(patches), (), tuple(folds))


def hem(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Turned up: what shows of it is the right side; stitched close to the inner fold."""
    own = allowances(mark, sheet)
    deep = float(mark.more[-1].millimetres) if mark.more else min(own.values())
    folds = sheet.rows(own, mark.edges)
    upper = sheet.rows({name: width + deep for name, width in own.items()}, mark.edges)
    near = max(CLOSE, bench.seen(millimetres("pieces", "apart")))
    rows = sheet.rows({name: width + deep - near for name, width in own.items()}, mark.edges)
    patches = [
        Patch(other_side(sheet), sheet.lying.cloth.cloth, between_lines(*both).intersection(sheet.area))
        for both in zip(folds, upper, strict=False)
    ]
    strokes = [Stroke("stitch", row) for row in rows]
    if mark.kind == "insert":
        strokes += _drawn_through(sheet, own, deep, bench)
    measured = ((mark.more[-1], upper[0]),) if mark.more and upper else ()
    return Marked(tuple(patches), tuple(strokes), (*folds, *upper), measured)


def _drawn_through(sheet: Sheet, own: dict[str, float], deep: float, bench: Bench) -> list[Stroke]:
    """What is drawn through a casing: its two edges under the cloth, and the hand that pulls it."""
    strokes = []
    for share in (0.25, 0.7):
        rows = sheet.rows({name: width + deep * share for name, width in own.items()}, own)
        strokes += [Stroke("hidden", row) for row in rows]
    middle = sheet.rows({name: width + deep * 0.48 for name, width in own.items()}, own)
    for row in middle[:1]:
        whole = length(row)
        hand = tuple(along(row, whole * (0.42 + 0.04 * at)) for at in range(5))
        strokes.append(Stroke("arrow", hand))
    return strokes


def fell(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """One allowance folded round the other: a band beside the seam, stitched down close to its fold."""
    assert mark.at is not None
    wide = float(mark.at.millimetres)
    own = allowances(mark, sheet)
    seams = sheet.rows(own, mark.edges)
    outer = sheet.rows({name: width + wide for name, width in own.items()}, mark.edges)
    near = max(CLOSE, bench.seen(millimetres("pieces", "apart")))
    rows = sheet.rows({name: width + wide - near for name, width in own.items()}, mark.edges)
    cloth = sheet.lying.cloth
    patches = [Patch(cloth.face, cloth.cloth, between_lines(*both)) for both in zip(seams, outer, strict=False)]
    strokes = [Stroke("stitch", row) for row in rows]
    return Marked(tuple(patches), tuple(strokes), (*seams, *outer), ((mark.at, rows[0]),) if rows else ())


def darts_of(mark: Mark, sheet: Sheet) -> list[ShapedDart]:
    named = {same_name(name): dart for name, dart in sheet.lying.shape.darts.items()}
    return [named[same_name(name)] for name in mark.edges if same_name(name) in named]


def tip_of(dart: ShapedDart) -> Point:
    one, two = dart.legs
    return dart.point or _middle(one[-1], two[-1])


def dart(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """One leg is brought to the other and stitched, of a pleat only basted; the fold runs half-way between."""
    strokes: list[Stroke] = []
    work: list[Flat] = []
    measured: list[tuple[Length, Flat]] = []
    for dart in darts_of(mark, sheet):
        one, two = _in_order(dart, mark.word, sheet)
        for placed in sheet.placed([one, two]):
            strokes.append(Stroke("thin" if mark.kind == "pleat" else "stitch", placed))
            measured += [(mark.at, placed)] if mark.at is not None and not measured else []
            work.append(placed)
        strokes += [Stroke("fold", line) for line in sheet.placed([(_middle(one[0], two[0]), tip_of(dart))])]
        hand = (along(one, length(one) * 0.45), along(two, length(two) * 0.45))
        strokes += [Stroke("arrow", line) for line in sheet.placed([hand])]
    return Marked(strokes=tuple(strokes), work=tuple(work), measured=tuple(measured))


def _in_order(dart: ShapedDart, toward: str, sheet: Sheet) -> tuple[Flat, Flat]:
    """Both legs, that to which the other is brought last: the nearer to the edge, or the fold, that it is folded to."""
    one, two = dart.legs
    shape = sheet.lying.shape
    goal = shape.edges[toward].cut if toward in shape.edges else None
    if goal is None and toward.startswith("cent"):
        goal = shape.fold
    if goal is not None and _far(one, goal) < _far(two, goal):
        return two, one
    return one, two


def _far(line: Flat, goal: Flat) -> float:
    return nearest(goal, along(line, length(line) / 2))[1]


def dart_pressed(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """A sewn dart that lies to one side: its fold beside its seam."""
    from shapely import Polygon

    patches, strokes, work = [], [], []
    for dart in darts_of(mark, sheet):
        seam, fold = dart.legs
        tip = tip_of(dart)
        start = _part(seam[0], fold[0], -0.8)
        hand = (_part(start, tip, 0.4), _part(_part(seam[0], fold[0], 1.6), tip, 0.4))
        outline = (*seam, tip, *fold[::-1], seam[0])
        for line, row, arrow in zip(
            sheet.placed([outline]), sheet.placed([(*seam, tip)]), sheet.placed([hand]), strict=True
        ):
            patches.append(Patch(sheet.lying.cloth.face, sheet.lying.cloth.cloth, Polygon(line).buffer(0)))
            strokes += [Stroke("stitch", row), Stroke("arrow", arrow)]
            work.append(line)
    return Marked(tuple(patches), tuple(strokes), tuple(work))


def turned(mark: Mark, sheet: Sheet, bench: Bench) -> Marked:
    """Nothing but where to look: the seams at the edge."""
    return Marked(work=tuple(sheet.edges(mark.edges)))


def _middle(one: Point, two: Point) -> Point:
    return _part(one, two, 0.5)


def _part(one: Point, two: Point, share: float) -> Point:
    return one[0] + (two[0] - one[0]) * share, one[1] + (two[1] - one[1]) * share
