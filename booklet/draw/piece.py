"""A pattern piece in small: as it is cut, for the map, or as it is printed, with grain, notches, fold and darts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from booklet.draw import svg
from booklet.draw.flat.ink import data_of, data_of_line, hatch
from booklet.draw.flat.spread import across
from booklet.draw.ink import colour, look, millimetres, points
from booklet.shape.course import Point, along, distance, nearest

if TYPE_CHECKING:
    from booklet.shape.piece import PieceShape, ShapedEdge
    from booklet.shape.seamline import Flat

# How far may the outline of a small picture leave the true one, in millimetres on paper? Our choice: a third of a line.
ROUGH = 0.05

Spot = tuple[float, float, float]


def ink_cut(drawing: Any, shape: PieceShape, cloth: str, middle: Point, room: tuple[float, float]) -> None:
    """The cut piece, unfolded, as large as a room in millimetres allows, about its middle. cloth: as `Lane.cloth`."""
    area = unfolded(shape)
    left, top, right, bottom = area.bounds
    scale = min(room[0] / (right - left), room[1] / (bottom - top))
    spot = scale, middle[0] - (left + right) / 2 * scale, middle[1] - (top + bottom) / 2 * scale
    drawing.add(_area(drawing, area, cloth, spot))


def ink_printed(drawing: Any, shape: PieceShape, cloth: str, spot: Spot) -> None:
    """The piece as the pattern prints it, half of it where it is cut on the fold. spot: its scale, then where the
    origin of the piece lies on paper."""
    from shapely.geometry import Polygon

    area = Polygon(shape.cut).buffer(0)
    made = _area(drawing, area, cloth, spot)
    thin, number = points("pieces", "rest"), svg.number
    marks = [leg for dart in shape.darts.values() for leg in dart.legs]
    if marks:
        data = "".join(data_of_line(_on(line, spot)) for line in marks)
        made.add(drawing.path(data, stroke_width=number(thin)))
    if shape.lines:
        data = "".join(data_of_line(_on(line, spot)) for line in shape.lines.values())
        dashes = " ".join(map(number, look()["pieces"]["chalk"]))
        made.add(drawing.path(data, stroke_width=number(thin), stroke_dasharray=dashes, class_="line"))
    if shape.grain is not None:
        dashes = " ".join(map(number, look()["key_lines"]["grain"]))
        data = data_of_line(_on(shape.grain, spot))
        made.add(drawing.path(data, stroke_width=number(thin * 1.4), stroke_dasharray=dashes, class_="grain"))
    fold = _fold(shape, area, spot)
    if fold:
        made.add(drawing.path(data_of_line(fold), stroke_width=number(thin), class_="fold"))
    data = "".join(data_of_line(line) for line in _notches(shape, area, spot))
    if data:
        made.add(drawing.path(data, stroke_width=number(points("pieces", "hand")), class_="notch"))
    drawing.add(made)


def unfolded(shape: PieceShape) -> Any:
    """Its area, in millimetres of cloth; with its mirror image where it is cut on the fold."""
    from shapely.geometry import Polygon
    from shapely.ops import unary_union

    area: Any = Polygon(shape.cut).buffer(0)
    if shape.fold is None:
        return area
    other = Polygon(across(*shape.fold).all(shape.cut)).buffer(0)
    # A hair wider, so that the two halves grow together along the fold.
    return unary_union([area.buffer(0.3, join_style="mitre"), other.buffer(0.3, join_style="mitre")])


def _area(drawing: Any, area: Any, cloth: str, spot: Spot) -> Any:
    from shapely import affinity

    scale, x, y = spot
    placed = affinity.affine_transform(area, [scale, 0, 0, scale, x, y]).simplify(ROUGH)
    made = svg.group(drawing, "piece", stroke=colour("cloth"))
    made["stroke-width"] = svg.number(points("pieces", "rest"))
    made["stroke-linejoin"] = made["stroke-linecap"] = "round"
    fill = look()["pieces"]["quiet_right" if cloth == "self" else "wrong"]
    made.add(drawing.path(data_of(placed), fill=fill))
    if cloth != "self":
        hatch(drawing, made, placed, cloth, None)
    return made


def _on(line: Flat, spot: Spot) -> Flat:
    from shapely.geometry import LineString

    scale, x, y = spot
    return tuple(LineString([(x + a * scale, y + b * scale) for a, b in line]).simplify(ROUGH).coords)


def _fold(shape: PieceShape, area: Any, spot: Spot) -> Flat:
    """A second line inside the edge that lies on the fold."""
    from shapely.geometry import LineString

    if shape.fold is None:
        return ()
    (ax, ay), (bx, by) = shape.fold
    size = distance(*shape.fold)
    ux, uy = (bx - ax) / size, (by - ay) / size
    ways = [(x - ax) * ux + (y - ay) * uy for x, y in shape.cut if abs((x - ax) * uy - (y - ay) * ux) < 0.5]
    gap = millimetres("key_lines", "fold_gap") / spot[0]
    nx, ny = (-uy, ux) if area.centroid.coords[0][0] * -uy + area.centroid.coords[0][1] * ux > ax * -uy + ay * ux else (
        uy, -ux)  # fmt: skip
    ends = [(ax + ux * way + nx * gap, ay + uy * way + ny * gap) for way in (min(ways), max(ways))]
    inner = LineString(ends).intersection(area)
    return _on(tuple(inner.coords), spot) if inner.geom_type == "LineString" and not inner.is_empty else ()


def _notches(shape: PieceShape, area: Any, spot: Spot) -> Iterator[Flat]:
    """Short strokes from the cutting line into the piece."""
    from shapely.geometry import Point as Place

    deep = millimetres("map", "notch") / spot[0]
    for edge in shape.edges.values():
        for _, notch in edge.notches:
            (x, y), (dx, dy) = _foot(edge, notch.at)
            for way in (1, -1):
                if area.contains(Place(x - dy * way, y + dx * way)):
                    yield _on(((x, y), (x - dy * way * deep, y + dx * way * deep)), spot)
                    break


def _foot(edge: ShapedEdge, at: Point) -> tuple[Point, Point]:
    """The point of an edge that is nearest, and its direction there."""
    way, _ = nearest(edge.cut, at)
    before, after = along(edge.cut, max(way - 1.0, 0.0)), along(edge.cut, way + 1.0)
    size = distance(before, after) or 1.0
    return along(edge.cut, way), ((after[0] - before[0]) / size, (after[1] - before[1]) / size)
