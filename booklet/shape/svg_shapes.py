"""The lines of one shape of an SVG, in its own units."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.shape.arc import circle, svg_arc
from booklet.shape.course import Course, Part
from booklet.shape.outline import BadOutline

if TYPE_CHECKING:
    from booklet.shape.course import Point

SHAPES = ("path", "line", "polyline", "polygon", "rect", "circle", "ellipse")
# The longest path, in signs. Our choice: longer than one with the most points that a piece may have.
LONGEST_PATH = 3_000_000
# How many millimetres is one <unit>? Source: CSS Values and Units Level 4, absolute lengths.
UNITS = {"mm": 1.0, "cm": 10.0, "q": 0.25, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "px": 25.4 / 96}
NUMBER = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[-+]?[0-9]+)?", re.IGNORECASE)


def courses_of(tag: str, own: dict[str, str]) -> list[Course]:
    """The lines of one shape, in its own units."""
    if tag == "path":
        return _path(own.get("d", ""))
    if tag in ("polyline", "polygon"):
        return _poly([float(text) for text in NUMBER.findall(own.get("points", ""))], tag == "polygon")
    value = {key: _coordinate(own.get(key, "")) for key in ("x1", "y1", "x2", "y2", "x", "y", "width", "height")}
    if tag == "line":
        return [Course((value["x1"], value["y1"]), (Part((value["x2"], value["y2"])),))]
    if tag == "rect":
        left, top, right, foot = value["x"], value["y"], value["x"] + value["width"], value["y"] + value["height"]
        return _poly([left, top, right, top, right, foot, left, foot], True)
    across = _coordinate(own.get("r" if tag == "circle" else "rx", ""))
    down = across if tag == "circle" else _coordinate(own.get("ry", ""))
    return [circle((_coordinate(own.get("cx", "")), _coordinate(own.get("cy", ""))), across, down)]


def _coordinate(text: str) -> float:
    """In the drawing's own units. Source: SVG 1.1, 7.10: a length with a unit stands for 96 units to the inch."""
    match = NUMBER.match(text.strip())
    if not match:
        return 0.0
    unit = text.strip()[match.end() :].strip().lower()
    number = float(match[0])
    return number * UNITS[unit] / UNITS["px"] if unit in UNITS else number


def _poly(numbers: list[float], close: bool) -> list[Course]:
    points = list(zip(numbers[::2], numbers[1::2], strict=False))
    if not points:
        return []
    if close:
        points.append(points[0])
    return [Course(points[0], tuple(Part(point) for point in points[1:]))]


def _path(data: str) -> list[Course]:
    """A course for each of its stretches. Raises BadOutline where the path can't be followed."""
    from fontTools.svgLib.path.parser import parse_path

    if not data.strip():
        return []
    if len(data) > LONGEST_PATH:
        raise BadOutline(
            "A path of this drawing has too many points.", "Save it again with curves, or with fewer points along them."
        )
    pen = _Pen()
    try:
        parse_path(data, pen)
    except (ValueError, IndexError, TypeError, KeyError, ZeroDivisionError, OverflowError):
        raise BadOutline(
            f"A path of this drawing can't be followed: “{data[:40]}”.", "Save it again as a plain SVG."
        ) from None
    return pen.courses


class _Pen:
    """Records what the parser of paths draws."""

    def __init__(self) -> None:
        self.courses: list[Course] = []
        self._start: Point = (0.0, 0.0)
        self._parts: list[Part] = []

    def moveTo(self, point: Point) -> None:  # noqa: N802 (the names of the pen are the parser's)
        self.endPath()
        self._start = point

    def lineTo(self, point: Point) -> None:  # noqa: N802
        self._parts.append(Part(point))

    def curveTo(self, one: Point, two: Point, end: Point) -> None:  # noqa: N802
        self._parts.append(Part(end, (one, two)))

    def qCurveTo(self, middle: Point, end: Point) -> None:  # noqa: N802
        here = self._parts[-1].end if self._parts else self._start
        self._parts.append(Part(end, (_third(here, middle), _third(end, middle))))

    def arcTo(  # noqa: N802
        self, across: float, down: float, tilt: float, large: bool, clockwise: bool, end: Point
    ) -> None:
        here = self._parts[-1].end if self._parts else self._start
        self._parts += svg_arc(here, across, down, tilt, large, clockwise, end)

    def closePath(self) -> None:  # noqa: N802
        here = self._parts[-1].end if self._parts else self._start
        if here != self._start:
            self._parts.append(Part(self._start))
        self.endPath()

    def endPath(self) -> None:  # noqa: N802
        if self._parts:
            self.courses.append(Course(self._start, tuple(self._parts)))
        self._parts = []


def _third(point: Point, middle: Point) -> Point:
    """The control of a cubic curve that is a quadratic one."""
    return point[0] + (middle[0] - point[0]) * 2 / 3, point[1] + (middle[1] - point[1]) * 2 / 3
