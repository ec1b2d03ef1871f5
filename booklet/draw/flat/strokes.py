"""What a mark leaves on a figure: lines and areas in millimetres of cloth, and how they are found on a laid cloth."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.bend import way_of
from booklet.shape.course import Point, distance, length

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.length import Length
    from booklet.plan.picture import Mark
    from booklet.shape.seamline import Flat


# How far from an edge or a seam is "close to it"? Common practice, no source: 1/16 to 1/8 in; here in millimetres.
CLOSE = 2.0


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
    """All sheets by the request's numbers, the scale that is expected, for what must be seen on paper, and all marks,
    for what must keep apart."""

    sheets: dict[int, Sheet]
    scale: float
    marks: tuple[Mark, ...] = ()

    def seen(self, paper_mm: float) -> float:
        """What is so wide on paper, in millimetres of cloth."""
        return paper_mm / self.scale


def allowances(mark: Mark, sheet: Sheet) -> dict[str, float]:
    edges = sheet.lying.shape.edges
    return {name: edges[name].allowance for name in mark.edges if name in edges}


def aside(line: Flat, way: float, off: float) -> Point:
    """A point beside a line: `off` to the right of its direction."""
    (x, y), (across, down) = way_of(line).at(way), way_of(line).direction(way)
    return x - down * off, y + across * off


def inward(sheet: Sheet, line: Flat) -> int:
    """Whether the cloth lies right (1) or left (-1) of a line at its edge."""
    from shapely.geometry import Point as Spot

    whole = length(line)
    for share in (0.5, 0.3, 0.7):
        for side in (1, -1):
            if sheet.area.contains(Spot(aside(line, whole * share, side * 8.0))) and not sheet.area.contains(
                Spot(aside(line, whole * share, -side * 8.0))
            ):
                return side
    return 1


def band_beside(line: Flat, off: float) -> Any:
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
