"""Cloths, flaps and strokes as SVG elements, cut off where the figure ends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING, Any

from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.svg import number

if TYPE_CHECKING:
    from booklet.draw.flat.marks import Patch, Stroke
    from booklet.draw.flat.paper import Paper
    from booklet.draw.flat.sheet import Sheet
    from booklet.shape.seamline import Flat

# How far may a drawn line leave the true one, in millimetres on paper? Our choice: a tenth of the thinnest line.
FINE = 0.02


def ink_sheet(drawing: Any, into: Any, sheet: Sheet, made: list[Sheet], paper: Paper) -> None:
    """The area in its tone, then its outline; what lies under others shows as a hidden line."""
    area = shown(sheet.area, paper)
    if area.is_empty:
        return
    cloth = sheet.lying.cloth
    into.add(drawing.path(data_of(area), fill=tone(cloth.face, cloth.cloth, cloth.quiet), stroke="none"))
    if cloth.cloth == "lining":
        hatch(drawing, into, area, "lining")
    if cloth.fused and cloth.face == "wrong":
        hatch(drawing, into, area, "interfacing")
    weight = points("pieces", "rest" if cloth.quiet else "hand")
    outline = outline_of(sheet, paper)
    into.add(
        drawing.path(
            "".join(data_of_line(line) for line in outline),
            fill="none",
            stroke=colour("cloth"),
            stroke_width=number(weight),
            stroke_linejoin="round",
            stroke_linecap="round",
        )
    )
    if sheet.fold is not None:
        _double(drawing, into, sheet.fold, area, paper)
    del made


def ink_patch(drawing: Any, into: Any, patch: Patch, paper: Paper) -> None:
    area = shown(patch.area, paper)
    if area.is_empty:
        return
    if patch.face == "interfacing":
        hatch(drawing, into, area, "interfacing")
        return
    into.add(
        drawing.path(
            data_of(area),
            fill=tone(patch.face, patch.cloth, False),
            stroke=colour("cloth"),
            stroke_width=number(points("pieces", "rest")),
            stroke_linejoin="round",
        )
    )


def tone(face: str, cloth: str, quiet: bool) -> str:
    if face == "wrong" or cloth != "self":
        return str(look()["pieces"]["wrong"])
    return str(look()["pieces"]["quiet_right"] if quiet else look()["right_side"]["tone"])


def shown(area: Any, paper: Paper) -> Any:
    """The part of an area that the figure shows, on paper, with no more points than can be seen."""
    from shapely import affinity
    from shapely.geometry import box

    part = area if paper.whole else area.intersection(box(*paper.box))
    scale = paper.scale
    moved = affinity.affine_transform(part, [scale, 0, 0, scale, -paper.box[0] * scale, -paper.box[1] * scale])
    return moved.simplify(FINE)


def outline_of(sheet: Sheet, paper: Paper) -> list[Flat]:
    """The outline where it is the cloth's own, not where the figure ends."""
    from shapely.geometry import MultiLineString

    rings = [ring.coords for area in areas_in(sheet.area) for ring in (area.exterior, *area.interiors)]
    return clipped(MultiLineString(rings), paper)


def clipped(line: Any, paper: Paper) -> list[Flat]:
    from shapely import affinity
    from shapely.geometry import box

    part = line if paper.whole else line.intersection(box(*paper.box))
    scale = paper.scale
    moved = affinity.affine_transform(part, [scale, 0, 0, scale, -paper.box[0] * scale, -paper.box[1] * scale])
    return [tuple(one.simplify(FINE).coords) for one in lines_in(moved) if one.length > 0.05]


def lines_in(shape: Any) -> Iterator[Any]:
    if shape.geom_type in ("LineString", "LinearRing") and not shape.is_empty:
        yield shape
    for one in getattr(shape, "geoms", ()):
        yield from lines_in(one)


def areas_in(shape: Any) -> Iterator[Any]:
    if shape.geom_type == "Polygon":
        yield shape
    for one in getattr(shape, "geoms", ()):
        yield from areas_in(one)


def data_of(area: Any) -> str:
    return "".join(
        f"{data_of_line(ring.coords[:-1])}Z" for one in areas_in(area) for ring in (one.exterior, *one.interiors)
    )


def data_of_line(line: Iterable[tuple[float, ...]]) -> str:
    first, *rest = line
    return f"M{number(first[0])} {number(first[1])}" + "".join(f"L{number(x)} {number(y)}" for x, y in rest)


def hatch(drawing: Any, into: Any, area: Any, kind: str) -> None:
    """Fine dots for interfacing, fine diagonals for lining; the area on paper."""
    from shapely.geometry import MultiLineString

    left, top, right, bottom = area.bounds
    every = millimetres(kind, "every") * 1.5
    reach = bottom - top
    rows = []
    if kind == "lining":
        at = left - reach
        while at < right:
            rows.append([(at, bottom), (at + reach, top)])
            at += every
    else:
        at, odd = top + every / 2, False
        while at < bottom:
            rows.append([(left + (every / 2 if odd else 0), at), (right, at)])
            at, odd = at + every, not odd
    cut = MultiLineString(rows).intersection(area)
    data = "".join(data_of_line(line.coords) for line in lines_in(cut))
    if not data:
        return
    table = look()[kind]
    if kind == "interfacing":
        into.add(
            drawing.path(
                data,
                fill="none",
                stroke=table["hatch"],
                stroke_width=number(table["dot"]),
                stroke_linecap="round",
                stroke_dasharray=f"0.01 {number(every)}",
            )
        )
    else:
        into.add(drawing.path(data, fill="none", stroke=table["hatch"], stroke_width=number(points(kind, "weight"))))


def ink_stroke(drawing: Any, into: Any, stroke: Stroke, paper: Paper) -> None:
    from shapely.geometry import LineString

    lines = clipped(LineString(stroke.line), paper)
    if not lines:
        return
    data = "".join(data_of_line(line) for line in lines)
    if stroke.kind == "arrow":
        data = "".join(data_of_line(line) + _head(line) for line in lines)
    into.add(drawing.path(data, fill="none", **_INK[stroke.kind]()))


def _head(line: Flat) -> str:
    import math

    (x0, y0), (x, y) = line[-2], line[-1]
    angle, head = math.atan2(y - y0, x - x0), millimetres("arrow", "head")
    ends = [(x - head * math.cos(angle + spread), y - head * math.sin(angle + spread)) for spread in (0.6, -0.6)]
    return data_of_line([ends[0], (x, y), ends[1]])


def _line(kind: str, weight: str, **more: str) -> dict[str, str]:
    return {
        "stroke": colour(kind),
        "stroke_width": number(points("pieces", weight)),
        "stroke_linecap": "round",
        "stroke_linejoin": "round",
        **more,
    }


def _dashes(name: str) -> str:
    return " ".join(number(value) for value in look()["pieces"][name])


_INK = {
    "stitch": lambda: _line("stitch", "stitch", stroke_dasharray=_dashes("dashes"), stroke_linecap="butt"),
    "hand": lambda: _line("stitch", "stitch"),
    "zigzag": lambda: _line("stitch", "rest"),
    "baste": lambda: _line("stitch", "rest", stroke_dasharray=_dashes("baste"), stroke_linecap="butt"),
    "cut": lambda: _line("cloth", "hand"),
    "trim": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("hidden"), stroke_linecap="butt"),
    "hidden": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("hidden"), stroke_linecap="butt"),
    "clip": lambda: _line("cloth", "clip"),
    "thin": lambda: _line("cloth", "rest"),
    "chalk": lambda: _line("cloth", "hand", stroke_dasharray=_dashes("fold")),
    "fold": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("fold")),
    "arrow": lambda: _line("arrow", "hand"),
}


def _double(drawing: Any, into: Any, fold: Any, area: Any, paper: Paper) -> None:
    """A fold: a second line beside the first."""
    from shapely.geometry import LineString

    gap = millimetres("key_lines", "fold_gap")
    line = LineString([paper(fold[0]), paper(fold[1])]).intersection(area.buffer(0.05))
    for one in lines_in(line):
        beside = max((one.offset_curve(off).intersection(area) for off in (gap, -gap)), key=lambda cut: cut.length)
        for inner in lines_in(beside):
            into.add(drawing.path(data_of_line(inner.coords), fill="none", **_line("cloth", "rest")))
