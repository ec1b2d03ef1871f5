"""Closed lines from what a file draws: whole ones, and those that come in several stretches."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.shape.course import Course, Part, area, distance
from booklet.shape.outline import BadOutline

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.shape.course import Point

# Ends nearer than this meet, in millimetres. Our choice: less than a pencil's line.
JOIN = 0.2
# A line that is closed but for this is closed straight, in millimetres. Our choice.
NEARLY = 2.0
# A ring smaller than this is no piece, in square millimetres. Our choice: a quarter of a small button.
LEAST_AREA = 50.0


def closed_rings(courses: Sequence[Course], name: str) -> list[Course]:
    """Every closed line among the courses, at least one. Raises BadOutline where there is none; says how wide the gap
    is."""
    whole = [course for course in courses if course.parts]
    rings = [course for course in whole if _is_closed(course)]
    open_ones = [course for course in whole if not _is_closed(course)]
    gaps = []
    for chain in _chains(open_ones):
        gap = distance(chain.start, chain.end)
        if gap <= NEARLY and len(chain.parts) > 1:
            rings.append(chain)
        else:
            gaps.append(gap)
    large = [tidy for ring in rings if (tidy := _tidy(ring)).parts and abs(area(tidy.points())) >= LEAST_AREA]
    if large:
        return large
    if gaps:
        raise BadOutline(
            f"The cutting line of the {name} is not closed: its ends are {min(gaps):.1f} mm apart.",
            "Close it in your drafting program, and save the file again.",
        )
    if rings:
        raise BadOutline(
            f"The cutting line of the {name} encloses less than {LEAST_AREA / 100} cm², too little for a piece.",
            "Look at the units of the file, and at the scale in which the piece is placed.",
        )
    raise BadOutline(f"The {name} has no cutting line.", "Draw it on layer 1 of a DXF, or as “cut” in an SVG.")


def _is_closed(course: Course) -> bool:
    return distance(course.start, course.end) <= 1e-6 and len(course.parts) > 1


def _tidy(ring: Course) -> Course:
    """Ends exactly at its start, and without parts that go nowhere."""
    parts: list[Part] = []
    here = ring.start
    for part in ring.parts:
        if part.controls is not None or distance(here, part.end) > 1e-6:
            parts.append(part)
            here = part.end
    if parts and distance(here, ring.start) <= JOIN:
        parts[-1] = Part(ring.start, parts[-1].controls)
    elif parts:
        parts.append(Part(ring.start))
    return Course(ring.start, tuple(parts))


def _chains(courses: list[Course]) -> list[Course]:
    """Stretches joined where their ends meet, each used once."""
    ends: dict[tuple[int, int], list[int]] = {}
    for at, course in enumerate(courses):
        for point in (course.start, course.end):
            ends.setdefault(_cell(point), []).append(at)
    used: set[int] = set()
    found = []
    for at, course in enumerate(courses):
        if at in used:
            continue
        used.add(at)
        forward = _run(course, courses, ends, used)
        if distance(forward[0], forward[1][-1].end) > JOIN:
            back = Course(*forward).reversed()
            forward = _run(back, courses, ends, used)
        found.append(Course(forward[0], tuple(forward[1])))
    return found


def _run(
    course: Course, courses: list[Course], ends: dict[tuple[int, int], list[int]], used: set[int]
) -> tuple[Point, tuple[Part, ...]]:
    """On from its end as long as another begins or ends there."""
    parts = list(course.parts)
    while distance(course.start, parts[-1].end) > JOIN:
        after = _next(parts[-1].end, courses, ends, used)
        if after is None:
            break
        parts += after.parts
    return course.start, tuple(parts)


def _next(point: Point, courses: list[Course], ends: dict[tuple[int, int], list[int]], used: set[int]) -> Course | None:
    column, row = _cell(point)
    for across in (0, -1, 1):
        for down in (0, -1, 1):
            for at in ends.get((column + across, row + down), ()):
                if at in used:
                    continue
                for course in (courses[at], courses[at].reversed()):
                    if distance(course.start, point) <= JOIN:
                        used.add(at)
                        return course
    return None


def _cell(point: Point) -> tuple[int, int]:
    return int(point[0] // JOIN), int(point[1] // JOIN)
