"""The words of a figure: the names of its cloths and the measures of its work, over no line and no other word."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.view import areas_of
from booklet.draw.ink import look, millimetres, points
from booklet.draw.letters import ABOVE, BELOW, width
from booklet.draw.place import Label
from booklet.draw.svg import number
from booklet.draw.svg import words as ink_words
from booklet.length import spell
from booklet.shape.course import along, length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.draw.flat.strokes import Marked
    from booklet.draw.flat.view import View
    from booklet.shape.course import Point
    from booklet.shape.seamline import Flat

# White kept round words, in millimetres.
AIR = 0.55
# A leader this near to a line is taken for a part of it.
BESIDE = 0.7
# From the end of a leader to its word.
GAP = 0.6
# At which places of a line may a leader end, as shares of its length, the best first?
SHARES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
# Which way may it go, and how far, on paper?
WAYS = tuple(
    (math.cos(turn / 6 * math.pi), math.sin(turn / 6 * math.pi)) for turn in (0, 6, 9, 3, 1, 5, 7, 11, 8, 10, 2, 4)
)
REACHES = (3.5, 5.0, 7.0, 9.5, 13.0, 18.0, 24.0)
# So many ways and distances are tried before the others.
NEAR = (8, 4)
# So many places are looked at together.
CHUNK = 48


class Leader(NamedTuple):
    """A thin line from a word to what it names; dot: it ends in a dot, inside a cloth."""

    start: Point
    end: Point
    dot: bool = False


class Words(NamedTuple):
    """labels, the thin lines to what they name, and whether all that was asked for has found a place."""

    labels: tuple[Label, ...]
    leaders: tuple[Leader, ...]
    complete: bool


class _Field:
    """What is taken on the paper already."""

    def __init__(self, ink: Any, work: Any, cloths: Any, taken: Sequence[Any], room: float) -> None:
        from shapely import prepare

        self.cloths = cloths
        self.work = work
        self.room = room
        self.ink = ink
        prepare(self.ink)
        prepare(self.cloths)
        prepare(self.work)
        both = [shape.bounds for shape in (ink, cloths, *taken) if not shape.is_empty] or [(0.0, 0.0, 0.0, 0.0)]
        self.left, self.top = min(one[0] for one in both), min(one[1] for one in both)
        self.right, self.bottom = max(one[2] for one in both), max(one[3] for one in both)
        self.boxes: list[Any] = list(taken)
        self.lines: list[Any] = []

    def free(self, boxes: Any) -> list[bool]:
        """Of many rectangles, which meet nothing."""
        from shapely import intersects

        found: list[bool] = (~intersects(self.ink, boxes)).tolist()
        for other in (*self.boxes, *self.lines) if any(found) else ():
            found = [ok and not hit for ok, hit in zip(found, intersects(other, boxes).tolist(), strict=True)]
        return found

    def take(self, label: Label, leader: Leader | None = None) -> None:
        from shapely import LineString, box

        around = label.box
        self.boxes.append(box(around.left - AIR, around.top - AIR, around.right + AIR, around.bottom + AIR))
        self.left, self.right = min(self.left, around.left), max(self.right, around.right)
        if leader is not None:
            self.lines.append(LineString([leader.start, leader.end]))


def labels_for(view: View, ink: Any, done: Sequence[Marked], taken: Sequence[Any], room: float) -> Words:
    """Names inside their cloths where they fit, else outside; measures outside, beside their line.

    ink: every line of the view; taken: other areas of the paper that are not free; room: how wide the figure may be
    with its words.
    """
    from shapely import MultiLineString, union_all

    strokes = [line for mark in view.marks for _, lines in mark.strokes for line in lines]
    field = _Field(ink, MultiLineString(strokes), union_all([seen.area for seen in view.cloths]), taken, room)
    labels: list[Label] = []
    leaders: list[Leader] = []
    complete = True
    left_over: list[tuple[str, Any]] = []
    for words, free in _named(view):
        label = _inside(words, free, field)
        if label is None:
            left_over.append((words, free))
        else:
            labels.append(label)
            field.take(label)
    wanted: list[tuple[str, Flat]] = []
    for one in done:
        for measure, line in one.measured[:1]:
            wanted.append((spell(measure).typeset, view.paper.all(line)))
    for words, line in dict.fromkeys(wanted):
        placed = _outside(words, [along(line, length(line) * share) for share in SHARES], field)
        complete = complete and placed is not None
        if placed is not None:
            labels.append(placed[0])
            leaders.append(placed[1])
            field.take(*placed)
    for words, free in left_over:
        placed = _outside(words, _spots(free, ink), field)
        complete = complete and placed is not None
        if placed is not None:
            labels.append(placed[0])
            leaders.append(placed[1]._replace(dot=True))
            field.take(*placed)
    return Words(tuple(labels), tuple(leaders), complete)


def _named(view: View) -> list[tuple[str, Any]]:
    """Each name once, with the area in which it may stand: of cloths of one name, the largest seen. A piece that is
    there in two kinds of cloth says which, as the sections do."""
    from shapely import union_all

    flaps = [area for mark in view.marks for face, _, area in mark.patches if face != "interfacing"]
    over = union_all(flaps) if flaps else None
    kinds: dict[str, set[str]] = {}
    for seen in view.cloths:
        kinds.setdefault(seen.sheet.lying.cloth.called, set()).add(seen.sheet.lying.cloth.cloth)
    found: dict[str, Any] = {}
    for seen in view.cloths:
        name, kind = seen.sheet.lying.cloth.called, seen.sheet.lying.cloth.cloth
        if len(kinds[name]) > 1 and kind != "self":
            name = f"{name} in {kind}"
        free = seen.free if over is None else seen.free.difference(over)
        if free.area > 2.0 and (name not in found or free.area > found[name].area):
            found[name] = free
    return list(found.items())


def _inside(words: str, free: Any, field: _Field) -> Label | None:
    """Near the middle of the widest clear place of an area; None where it has none wide enough."""
    from shapely import box, contains, prepare

    wide, high = width(words) + 2 * AIR, points("words", "size") * (ABOVE + BELOW) + 2 * AIR
    for part in sorted(areas_of(free), key=lambda one: -one.area)[:2]:
        if part.area < wide * high:
            continue
        left, top, right, bottom = part.bounds
        middle = part.centroid.coords[0] if contains(part, part.centroid) else part.representative_point().coords[0]
        xs = [middle[0], *(left + wide / 2 + (right - left - wide) * step / 12 for step in range(13))]
        ys = [middle[1], *(top + high / 2 + (bottom - top - high) * step / 16 for step in range(17))]
        spots = sorted(
            ((x, y) for x in xs for y in ys), key=lambda spot: math.hypot(spot[0] - middle[0], spot[1] - middle[1])
        )
        prepare(part)
        boxes = box(
            [x - wide / 2 for x, _ in spots],
            [y - high / 2 for _, y in spots],
            [x + wide / 2 for x, _ in spots],
            [y + high / 2 for _, y in spots],
        )
        inside = [at for at, ok in enumerate(contains(part, boxes).tolist()) if ok]
        for first in range(0, len(inside), CHUNK):
            some = inside[first : first + CHUNK]
            found = next((at for at, ok in zip(some, field.free(boxes[some]), strict=True) if ok), None)
            if found is not None:
                x, y = spots[found]
                return Label(words, x, y + points("words", "size") * (ABOVE - BELOW) / 2, "middle")
    return None


def _spots(free: Any, ink: Any) -> list[Point]:
    """Places in an area to which a leader may point, on no line: in the middle of it at some heights, or beside."""
    from shapely import LineString, distance
    from shapely import points as spots

    part = max(areas_of(free), key=lambda one: one.area)
    left, top, right, bottom = part.bounds
    found: list[Point] = []
    for share in (0.5, 0.35, 0.65, 0.2, 0.8):
        y = top + (bottom - top) * share
        runs = part.intersection(LineString([(left - 1, y), (right + 1, y)]))
        x0, _, x1, _ = max(getattr(runs, "geoms", [runs]), key=lambda one: one.length).bounds or (left, y, left, y)
        found += [(x0 + (x1 - x0) * across, y) for across in (0.5, 0.3, 0.7, 0.1, 0.9) if x1 - x0 > 0.8]
    clear = [at for at, off in enumerate(distance(ink, spots(found)).tolist()) if off > 0.5] if found else []
    return [found[at] for at in clear][:8] or found or [part.representative_point().coords[0]]


class _Try(NamedTuple):
    """A place for a word outside: its box, the leader's two ends, and what it costs before it is looked at."""

    cost: float
    left: float
    base: float
    anchor: str
    start: Point
    end: Point


def _outside(words: str, spots: Sequence[Point], field: _Field) -> tuple[Label, Leader] | None:
    """Beside the cloth, near one of the spots, with a leader to it: the shortest that crosses least."""
    wide, high = width(words), points("words", "size") * ABOVE
    best: tuple[float, _Try] | None = None
    for ways, reaches in ((WAYS[: NEAR[0]], REACHES[: NEAR[1]]), (WAYS, REACHES)):
        for reach in reaches:
            # No place costs less than its leader is long.
            if best is not None and best[0] <= reach:
                break
            tries = [
                one
                for at, spot in enumerate(spots)
                if best is None or reach + 0.4 * at < best[0]
                for way in ways
                if (one := _try(spot, way, reach, wide, high, 0.4 * at, field)) is not None
            ]
            best = _best(sorted(tries), wide, high, field, best)
        if best is not None:
            break
    if best is None:
        return None
    found = best[1]
    x = {"start": found.left, "middle": found.left + wide / 2, "end": found.left + wide}[found.anchor]
    return Label(words, x, found.base, found.anchor), Leader(found.start, found.end)


def _best(
    tries: Sequence[_Try], wide: float, high: float, field: _Field, best: tuple[float, _Try] | None
) -> tuple[float, _Try] | None:
    """Of places in the order of what they cost, and the best before them, the one that costs least with what its
    leader crosses."""
    from shapely import LineString, box, dwithin, intersects

    low = points("words", "size") * BELOW
    for first in range(0, len(tries), CHUNK):
        some = tries[first : first + CHUNK]
        if best is not None and some[0].cost >= best[0]:
            break
        boxes = box(
            [one.left - AIR for one in some],
            [one.base - high - AIR for one in some],
            [one.left + wide + AIR for one in some],
            [one.base + low + AIR for one in some],
        )
        bare = [at for at, covered in enumerate(intersects(field.cloths, boxes).tolist()) if not covered]
        for at, free in zip(bare, field.free(boxes[bare]) if bare else (), strict=True):
            if not free or (best is not None and some[at].cost >= best[0]):
                continue
            leader = LineString([some[at].start, some[at].end])
            if any(other.intersects(leader) for other in (*field.boxes, *field.lines)):
                continue
            least = math.inf if best is None else best[0] - 1e-9
            cost = some[at].cost + 0.8 * leader.intersection(field.cloths).length
            if cost < least and dwithin(field.work, leader, BESIDE):
                # What it crosses is told sooner than what it runs beside.
                crossed = 5.0 * _crossings(leader, field.work)
                cost += crossed + (6.0 * _beside(leader, field.work) if cost + crossed < least else 0.0)
            if cost < least:
                best = cost, some[at]
    return best


def _crossings(leader: Any, work: Any) -> int:
    """How often a leader crosses what hands do, but for where it ends."""
    from shapely import Point as Spot

    hits = leader.intersection(work)
    end = Spot(leader.coords[-1])
    return sum(1 for one in getattr(hits, "geoms", [hits]) if not one.is_empty and one.distance(end) > 0.4)


def _beside(leader: Any, work: Any) -> float:
    """How far a leader runs along what hands do, so that it would be taken for it, in millimetres."""
    near = work.intersection(leader.buffer(BESIDE, quad_segs=2)).length
    return float(max(0.0, near - 2.2 * BESIDE))


def _try(spot: Point, way: Point, reach: float, wide: float, high: float, cost: float, field: _Field) -> _Try | None:
    """The word at the end of a leader that goes one way from a spot; None where the figure would become too wide."""
    x, y = spot[0] + way[0] * reach, spot[1] + way[1] * reach
    if abs(way[0]) > 0.4:
        anchor = "start" if way[0] > 0 else "end"
        left, base = (x + GAP if way[0] > 0 else x - GAP - wide), y + high / 2
    else:
        anchor, left, base = "middle", x - wide / 2, (y - GAP if way[1] < 0 else y + high + GAP)
    grown = max(field.right, left + wide) - min(field.left, left)
    if grown > field.room:
        return None
    cost += reach + (1.0 if min(abs(way[0]), abs(way[1])) > 0.1 else 0.0)
    cost += 0.35 * max(0.0, grown - (field.right - field.left))
    cost += 0.3 * (max(0.0, field.top - base + high) + max(0.0, base - field.bottom))
    return _Try(cost, left, base, anchor, (x, y), spot)


def widest(view: View, done: Sequence[Marked]) -> float:
    """How much room the widest word takes beside a figure, its leader with it."""
    words = [spell(measure).typeset for one in done for measure, _ in one.measured[:1]]
    words += [name for name, _ in _named(view)]
    return max((width(one) + 5.0 for one in words), default=0.0)


def ink_labels(drawing: Any, into: Any, words: Words) -> None:
    if words.leaders:
        data = "".join(
            f"M{number(one.start[0])} {number(one.start[1])}L{number(one.end[0])} {number(one.end[1])}"
            for one in words.leaders
        )
        table = look()["measure"]
        into.add(
            drawing.path(data, fill="none", stroke=table["colour"], stroke_width=number(points("measure", "line")))
        )
    dots = "".join(
        f"M{number(one.end[0])} {number(one.end[1])}H{number(one.end[0] + 0.01)}" for one in words.leaders if one.dot
    )
    if dots:
        dot = {"stroke_width": number(millimetres("pieces", "leader_dot")), "stroke_linecap": "round"}
        into.add(drawing.path(dots, fill="none", stroke=look()["measure"]["colour"], **dot))
    into.add(ink_words(drawing, words.labels))


def no_hatch(words: Words) -> Any:
    """The areas of the words, in which no dots or diagonals run."""
    from shapely import box, union_all

    air = AIR + millimetres("pieces", "dot")
    boxes = [
        box(one.left - air, one.top - air, one.right + air, one.bottom + air)
        for one in (label.box for label in words.labels)
    ]
    return union_all(boxes) if boxes else None
