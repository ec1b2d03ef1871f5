"""What a file draws for one piece, mark by mark, and the Outline that it comes to; the same for DXF and SVG."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from booklet.record import Record, fresh
from booklet.shape.course import Course, along, area, distance, length, nearest
from booklet.shape.outline import BadOutline, Notch, Outline
from booklet.shape.ring import closed_rings

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.shape.course import Point
    from booklet.shape.outline import Chord

# How far may a turn point lie from the cutting line and still be a corner of it, in millimetres? Our choice.
ON_LINE = 1.0
# A mark this near to a point of the cutting line is that point, in millimetres. Our choice: the flattening's own.
SAME = 0.05
# A notch within this of the cutting line is cut there, in millimetres. Our choice.
NEAR = 3.0
# Without turn points: how sharply must the cutting line bend at a corner, in radians? Our choice: 30 degrees, more than
# a flattened curve bends from one point to the next, less than any corner that is sewn.
SHARP = math.radians(30)
# A second closed cutting line is cut out of the middle, where it is smaller than this share of the piece. Our choice.
MOST_CUT_OUT = 0.5
# The most that one piece may hold. Our choice: ten times what a large piece has.
MOST_MARKS, MOST_POINTS = 1_000, 100_000
# No piece is longer than this, in millimetres. Our choice: a train of twenty metres.
LONGEST = 20_000.0


class Marks(Record):
    """Courses and points as the file draws them, already in millimetres, y down.

    notches: what is drawn (a point, or a line into the allowance), its kind, and the depth where the file says it.
    """

    name: str
    size: str = ""
    cut: list[Course] = fresh(default_factory=list)
    corners: list[Point] = fresh(default_factory=list)
    notches: list[tuple[Course, str, float]] = fresh(default_factory=list)
    sew: list[Course] = fresh(default_factory=list)
    folds: list[Course] = fresh(default_factory=list)
    grains: list[Course] = fresh(default_factory=list)
    lines: list[Course] = fresh(default_factory=list)
    cutouts: list[Course] = fresh(default_factory=list)
    holes: list[Point] = fresh(default_factory=list)
    texts: list[str] = fresh(default_factory=list)
    label: str = ""


def outline_of(marks: Marks) -> Outline:
    """The outline, its cutting line from where and the way the file draws it, corners and notches in the order passed.

    Raises BadOutline where there is no closed cutting line, or more than a piece can hold.
    """
    _refuse_too_much(marks)
    rings = sorted(closed_rings(marks.cut, marks.name), key=lambda ring: -abs(area(ring.points())))
    ring = rings[0]
    if len(rings) > 1 and abs(area(rings[1].points())) > MOST_CUT_OUT * abs(area(ring.points())):
        raise BadOutline(
            f"The {marks.name} has several cutting lines of about one size.",
            "Draw each size, and each piece, in a block of its own, or in an SVG in a group of its own.",
        )
    flat = ring.points()
    turns = [point for point in marks.corners if nearest(flat, point)[1] <= ON_LINE]
    return Outline(
        marks.name,
        marks.size,
        ring,
        tuple(_unlike(_in_order(flat, [_snapped(flat, point) for point in turns]))) if turns else sharp_bends(ring),
        _notches(flat, marks.notches),
        tuple(marks.sew),
        _chord(marks.folds),
        _chord(marks.grains),
        tuple(marks.lines),
        tuple(marks.holes),
        tuple(marks.texts),
        (*rings[1:], *marks.cutouts),
        marks.label,
    )


def _refuse_too_much(marks: Marks) -> None:
    courses = [
        *marks.cut,
        *marks.sew,
        *marks.folds,
        *marks.grains,
        *marks.lines,
        *marks.cutouts,
        *(course for course, _, _ in marks.notches),
    ]
    dots = [*marks.corners, *marks.holes]
    for point in itertools.chain(dots, *(course.all_points() for course in courses)):
        if not (abs(point[0]) <= LONGEST and abs(point[1]) <= LONGEST):  # `nan` is refused too
            raise BadOutline(
                f"The {marks.name} reaches more than {LONGEST / 1000:.0f} m from the origin of its file.",
                "Look at the units of the file, and draw the piece near the origin.",
            )
    for rows, called in (
        (marks.corners, "turn points"),
        (marks.notches, "notches"),
        (marks.lines, "inner lines"),
        (marks.holes, "dots"),
        (marks.cutouts, "cutouts"),
        (marks.sew, "sewing lines"),
    ):
        if len(rows) > MOST_MARKS:
            raise BadOutline(
                f"The outline of the {marks.name} has {len(rows)} {called}; more than {MOST_MARKS} are not read.",
                "Save the piece again with the marks that the sewer needs.",
            )
    if sum(course.number_of_points() for course in courses) > MOST_POINTS:
        raise BadOutline(
            f"The outline of the {marks.name} has more than {MOST_POINTS:,} points.",
            "Save it again with curves, or with fewer points along them.",
        )


def sharp_bends(ring: Course) -> tuple[Point, ...]:
    """Where a closed course bends sharply, in its order."""
    flat = [point for point, _ in itertools.groupby(ring.points())]
    if len(flat) > 1 and distance(flat[0], flat[-1]) <= SAME:
        flat.pop()
    ends = {ring.start, *(part.end for part in ring.parts)}
    return tuple(
        here
        for before, here, after in zip((flat[-1], *flat), flat, (*flat[1:], flat[0]), strict=False)
        if here in ends and _bend(before, here, after) >= SHARP
    )


def _bend(before: Point, here: Point, after: Point) -> float:
    one = math.atan2(here[1] - before[1], here[0] - before[0])
    two = math.atan2(after[1] - here[1], after[0] - here[0])
    return abs((two - one + math.pi) % (2 * math.pi) - math.pi)


def _snapped(flat: Sequence[Point], point: Point) -> Point:
    """The point of the line that a mark means: one of its own, or the foot on it."""
    own = min(flat, key=lambda other: distance(other, point))
    return own if distance(own, point) <= SAME else along(flat, nearest(flat, point)[0])


def _way(flat: Sequence[Point], point: Point, whole: float) -> float:
    """How far along the ring; what lies on its last hair belongs to its start, so that sizes are numbered alike."""
    way = nearest(flat, point)[0]
    return 0.0 if whole - way <= SAME else way


def _in_order(flat: Sequence[Point], points: Iterable[Point]) -> list[Point]:
    whole = length(flat)
    return sorted(points, key=lambda point: _way(flat, point, whole))


def _unlike(points: Sequence[Point]) -> Iterable[Point]:
    """Without a point given twice."""
    return (point for at, point in enumerate(points) if at == 0 or distance(point, points[at - 1]) > SAME)


def _notches(flat: Sequence[Point], drawn: Sequence[tuple[Course, str, float]]) -> tuple[Notch, ...]:
    whole = length(flat)
    found = [_notch(flat, *notch) for notch in drawn]
    return tuple(sorted(found, key=lambda notch: _way(flat, notch.at, whole)))


def _notch(flat: Sequence[Point], drawn: Course, kind: str, depth: float) -> Notch:
    """From a point; from a line into the allowance, at the end that lies on the cutting line; from a drawn shape."""
    points = drawn.points()
    if len(points) == 1:
        at = points[0]
    elif len(points) == 2:
        at = min(points, key=lambda point: nearest(flat, point)[1])
        depth = depth or length(points)
    else:
        at = ((points[0][0] + points[-1][0]) / 2, (points[0][1] + points[-1][1]) / 2)
        depth = depth or max(nearest(flat, point)[1] for point in points)
        kind = "v" if kind == "slit" else kind
    return Notch(_snapped(flat, at) if nearest(flat, at)[1] <= NEAR else at, kind, depth)


def _chord(courses: Sequence[Course]) -> Chord | None:
    """The ends of the longest."""
    longest = max(courses, key=lambda course: distance(course.start, course.end), default=None)
    if longest is None or distance(longest.start, longest.end) == 0:
        return None
    return longest.start, longest.end


def dot(point: Point) -> Course:
    """A mark without length."""
    return Course(point, ())
