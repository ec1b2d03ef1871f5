"""The words of a figure: the names of its cloths and the measures of its work, over no line and no other word."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.ink import outline_of, shown
from booklet.draw.ink import look, points
from booklet.draw.letters import ABOVE, BELOW, width
from booklet.draw.place import Label
from booklet.draw.svg import words as ink_words
from booklet.length import spell
from booklet.shape.course import along, length

if TYPE_CHECKING:
    from booklet.draw.flat.marks import Marked
    from booklet.draw.flat.paper import Paper
    from booklet.draw.flat.sheet import Sheet
    from booklet.shape.course import Point

# White kept round words, in millimetres.
AIR = 0.5


class Leader(NamedTuple):
    """A thin line from a measure to what it measures."""

    start: Point
    end: Point


class Words(NamedTuple):
    """over: words that stand on a hatch, and need some white round them."""

    labels: tuple[Label, ...]
    leaders: tuple[Leader, ...]
    over: frozenset[str]


def labels_for(made: list[Sheet], done: list[Marked], paper: Paper) -> tuple[Words, tuple[float, float, float, float]]:
    """Names inside their cloths, measures outside beside their line; and how much room that takes round the figure."""
    from shapely import prepare
    from shapely.geometry import LineString, box
    from shapely.ops import unary_union

    taken: list[Any] = []
    lines = [LineString(line) for sheet in made for line in outline_of(sheet, paper) if len(line) > 1]
    for one in done:
        lines += [LineString(paper.all(stroke.line)) for stroke in one.strokes if len(stroke.line) > 1]
        lines += [shown(patch.area, paper).boundary for patch in one.patches]
    ink = unary_union(lines) if lines else box(0, 0, 0, 0)
    prepare(ink)
    labels: list[Label] = []
    for at, sheet in enumerate(made):
        above = unary_union([shown(upper.area, paper) for upper in made[at + 1 :]])
        free = shown(sheet.area, paper).difference(above)
        label = _inside(sheet.lying.cloth.called, free, [*taken, ink])
        if label is not None:
            labels.append(label)
            taken.append(box(*label.box))
    leaders: list[Leader] = []
    cloths = unary_union([shown(sheet.area, paper) for sheet in made])
    for one in done:
        for measure, line in one.measured[:1]:
            placed = _outside(spell(measure).typeset, paper.all(line), cloths, [*taken, ink])
            if placed is not None:
                labels.append(placed[0])
                leaders.append(placed[1])
                taken.append(box(*placed[0].box))
    hatched = frozenset(s.lying.cloth.called for s in made if s.lying.cloth.fused or s.lying.cloth.cloth == "lining")
    return Words(tuple(labels), tuple(leaders), hatched), _room(labels, paper)


def widest_measure(done: list[Marked]) -> float:
    """How much room the widest measure takes beside a figure, its leader with it."""
    measures = [spell(measure).typeset for one in done for measure, _ in one.measured[:1]]
    return max((width(words) + 4.0 for words in measures), default=0.0)


def _inside(words: str, free: Any, taken: list[Any]) -> Label | None:
    """In the widest clear place of an area; nowhere where it has none wide enough."""
    from shapely import maximum_inscribed_circle
    from shapely.geometry import box

    wide, high = width(words) + 2 * AIR, points("words", "size") * (ABOVE + BELOW) + 2 * AIR
    parts = sorted(getattr(free, "geoms", [free]), key=lambda one: -one.area)
    for part in parts[:3]:
        if part.is_empty or part.area < wide * high:
            continue
        centre = maximum_inscribed_circle(part).coords[0]
        left, top, right, bottom = part.bounds
        spots = [centre, part.representative_point().coords[0]]
        spots += [
            (left + (right - left) * x / 8, top + (bottom - top) * y / 12) for y in range(2, 11) for x in range(2, 7)
        ]
        for x, y in spots:
            place = box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
            if part.contains(place) and not any(place.intersects(other) for other in taken):
                return Label(words, x, y + points("words", "size") * (ABOVE - BELOW) / 2, "middle")
    return None


def _outside(words: str, line: Any, cloths: Any, taken: list[Any]) -> tuple[Label, Leader] | None:
    """Beside the cloth, near the line, with a leader to it."""
    from shapely.geometry import LineString, box

    wide, high = width(words), points("words", "size") * ABOVE
    left, top, right, bottom = cloths.bounds
    best: tuple[float, Label, Leader] | None = None
    for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92):
        x, y = along(line, length(line) * share)
        for dx, dy, anchor in ((1, 0, "start"), (-1, 0, "end"), (0, -1, "middle"), (0, 1, "middle"), (1, -1, "start"),
                               (-1, -1, "end"), (1, 1, "start"), (-1, 1, "end")):  # fmt: skip
            for reach in (4.0, 6.0, 8.0, 11.0, 15.0, 20.0):
                ex, ey = x + dx * reach, y + dy * reach
                near = {"start": ex + 0.6, "end": ex - 0.6 - wide, "middle": ex - wide / 2}[anchor]
                low = ey + high / 2 if dy == 0 or dx else (ey - 0.6 if dy < 0 else ey + high + 0.6)
                place = box(near - AIR, low - high - AIR, near + wide + AIR, low + AIR)
                if place.intersects(cloths) or any(place.intersects(other) for other in taken):
                    continue
                cost = reach + (0 if left - 14 < ex < right + 14 and top - 8 < ey < bottom + 8 else 40)
                cost += 6 * LineString([(x, y), (ex, ey)]).intersection(cloths).length / reach + (2 if dx and dy else 0)
                if best is None or cost < best[0]:
                    text_x = {"start": ex + 0.6, "end": ex - 0.6, "middle": ex}[anchor]
                    best = (cost, Label(words, text_x, low, anchor), Leader((ex, ey), (x, y)))
                break
    return (best[1], best[2]) if best else None


def _room(labels: list[Label], paper: Paper) -> tuple[float, float, float, float]:
    """How far words reach past the figure: left, top, right, bottom."""
    boxes = [label.box for label in labels]
    if not boxes:
        return (0.0, 0.0, 0.0, 0.0)
    return (
        max(0.0, -min(box[0] for box in boxes)),
        max(0.0, -min(box[1] for box in boxes)),
        max(0.0, max(box[2] for box in boxes) - paper.width),
        max(0.0, max(box[3] for box in boxes) - paper.height),
    )


def ink_labels(drawing: Any, into: Any, words: Words) -> None:
    from booklet.draw.svg import number

    if words.leaders:
        data = "".join(
            f"M{number(one.start[0])} {number(one.start[1])}L{number(one.end[0])} {number(one.end[1])}"
            for one in words.leaders
        )
        table = look()["measure"]
        into.add(
            drawing.path(data, fill="none", stroke=table["colour"], stroke_width=number(points("measure", "line")))
        )
    for label in words.labels:
        if label.words in words.over:
            box = label.box
            size = (number(box.right - box.left + 2 * AIR), number(box.bottom - box.top + 2 * AIR))
            corner = (number(box.left - AIR), number(box.top - AIR))
            into.add(drawing.rect(corner, size, fill=look()["pieces"]["wrong"], stroke="none"))
    into.add(ink_words(drawing, words.labels))
