"""A figure's cloths, flaps and strokes as SVG elements."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from booklet.draw.flat.view import lines_of, rings_of
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.svg import number
from booklet.shape.course import length

if TYPE_CHECKING:
    from booklet.draw.flat.view import Seen, View
    from booklet.shape.seamline import Flat


# How much white is kept round a zigzag, in millimetres on paper. Our choice.
BARE = 0.55


def ink_view(drawing: Any, into: Any, view: View, away: Any = None) -> None:
    """Cloths from the lowest up, each with its flaps, then what hands do. away: where words stand, which no hatch
    may run through; nor may it through a zigzag, which would be lost in it."""
    away = _clear(view, away)
    for number_, seen in enumerate(view.cloths):
        _cloth(drawing, into, seen, away)
        for mark, at in zip(view.marks, view.on, strict=True):
            if at == number_:
                for face, kind, area in mark.patches:
                    _patch(drawing, into, face, kind, area, away)
    strokes: dict[str, list[Flat]] = {"hidden": [line for seen in view.cloths for line in seen.hidden]}
    _lines(drawing, into, [line for seen in view.cloths for line in seen.centre], _INK["centre"]())
    for mark in view.marks:
        for kind, lines in mark.strokes:
            strokes.setdefault(kind, []).extend(lines)
    for kind, ink in _INK.items():
        found = strokes.get(kind, [])
        if kind == "hidden":
            short = [line for line in found if length(line) < millimetres("pieces", "short")]
            found = [line for line in found if length(line) >= millimetres("pieces", "short")]
            _lines(drawing, into, short, {**ink(), "stroke_dasharray": _dashes("hidden_short")})
        _lines(drawing, into, found + ([_head(line) for line in found] if kind == "arrow" else []), ink())


def _clear(view: View, away: Any) -> Any:
    """What is kept free of dots and diagonals: words, and the band in which a zigzag runs."""
    from shapely import MultiLineString

    hatched = any(seen.sheet.lying.cloth.cloth != "self" or seen.sheet.lying.cloth.fused for seen in view.cloths)
    rows = [line for mark in view.marks for kind, lines in mark.strokes if kind == "zigzag" for line in lines]
    if not rows or not hatched:
        return away
    band = MultiLineString(rows).buffer(BARE, quad_segs=2)
    return band if away is None else away.union(band)


def _cloth(drawing: Any, into: Any, seen: Seen, away: Any) -> None:
    """The area in its tone, then its edges."""
    if seen.area.is_empty:
        return
    cloth = seen.sheet.lying.cloth
    into.add(drawing.path(data_of(seen.area), fill=tone(cloth.face, cloth.cloth, cloth.quiet), stroke="none"))
    if cloth.cloth in ("lining", "interfacing"):
        hatch(drawing, into, seen.free, cloth.cloth, away)
    elif cloth.fused and cloth.face == "wrong":
        hatch(drawing, into, seen.free, "interfacing", away)
    ends = {"stroke": look()["pieces"]["wave_colour"], "stroke_width": number(points("pieces", "wave_line"))}
    _lines(drawing, into, seen.ends, ends)
    _lines(drawing, into, seen.outline, _line("cloth", "hand" if seen.strong else "rest"))
    _lines(drawing, into, seen.fold, _line("cloth", "rest"))


def _patch(drawing: Any, into: Any, face: str, kind: str, area: Any, away: Any) -> None:
    if face == "interfacing":
        hatch(drawing, into, area, "interfacing", away)
        return
    ink = {"stroke": colour("cloth"), "stroke_width": number(points("pieces", "rest")), "stroke_linejoin": "round"}
    into.add(drawing.path(data_of(area), fill=tone(face, kind, False), **ink))
    if kind == "lining":
        hatch(drawing, into, area, kind, away)


def tone(face: str, cloth: str, quiet: bool) -> str:
    if face == "wrong" or cloth == "interfacing":
        return str(look()["pieces"]["wrong"])
    return str(look()["pieces"]["quiet_right"] if quiet or cloth == "lining" else look()["right_side"]["tone"])


def _lines(drawing: Any, into: Any, lines: Iterable[Flat], ink: dict[str, str]) -> None:
    data = "".join(data_of_line(line) for line in lines)
    if data:
        into.add(drawing.path(data, fill="none", **ink))


def data_of(area: Any) -> str:
    return "".join(data_of_line(tuple(ring.coords)) for ring in rings_of(area))


def data_of_line(line: Flat) -> str:
    """From point to point; closed where it ends in its beginning."""
    first, *rest = [(number(x), number(y)) for x, y in line]
    closed = len(rest) > 2 and rest[-1] == first
    steps = rest[:-1] if closed else rest
    return f"M{first[0]} {first[1]}L{' '.join(f'{x} {y}' for x, y in steps)}{'Z' if closed else ''}"


def hatch(drawing: Any, into: Any, area: Any, kind: str, away: Any) -> None:
    """Fine dots for interfacing, fine diagonals for lining; the area on paper."""
    from shapely import MultiLineString

    if area.is_empty:
        return
    table, every = look()[kind], millimetres("pieces", f"{kind}_every")
    # Nothing quite at the edge, where a dot would thicken the line.
    inner = area.buffer(-0.3) if kind == "interfacing" else area
    if away is not None:
        inner = inner.difference(away)
    cut = MultiLineString(list(_rows(area.bounds, kind, every))).intersection(inner)
    lines = lines_of(cut, 0.0)
    if kind == "lining":
        _lines(
            drawing, into, lines, {"stroke": table["hatch"], "stroke_width": number(points("pieces", "lining_line"))}
        )
        return
    data = "".join(_dots(line, every) for line in lines)
    if data:
        dots = {
            "stroke": table["hatch"],
            "stroke_width": number(millimetres("pieces", "dot")),
            "stroke_linecap": "round",
        }
        into.add(drawing.path(data, fill="none", stroke_dasharray=f"0.01 {number(every - 0.01)}", **dots))


def _rows(bounds: tuple[float, float, float, float], kind: str, every: float) -> Iterable[Flat]:
    """Rows that lie on one raster of the paper, whatever the area, so that neighbours go together."""
    left, top, right, bottom = bounds
    if kind == "lining":
        reach = bottom - top
        for step in range(math.floor((left + top) / every), math.ceil((right + bottom) / every) + 1):
            yield (step * every - bottom, bottom), (step * every - bottom + reach, top)
        return
    for step in range(math.ceil(top / every * 2), math.floor(bottom / every * 2) + 1):
        yield (left - every, step * every / 2), (right + every, step * every / 2)


def _dots(line: Flat, every: float) -> str:
    """A row of dots on the raster: every second row stands half a step aside."""
    (x0, y), (x1, _) = (line[0], line[-1]) if line[0][0] < line[-1][0] else (line[-1], line[0])
    aside = every / 2 if round(y / every * 2) % 2 else 0.0
    start = math.ceil((x0 - aside) / every) * every + aside
    return f"M{number(start)} {number(y)}H{number(x1)}" if start < x1 else ""


def _head(line: Flat) -> Flat:
    (x0, y0), (x, y) = line[-2], line[-1]
    angle, head = math.atan2(y - y0, x - x0), millimetres("arrow", "head")
    one, two = [(x - head * math.cos(angle + spread), y - head * math.sin(angle + spread)) for spread in (0.6, -0.6)]
    return one, (x, y), two


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


# In the order in which they are drawn.
_INK: dict[str, Callable[[], dict[str, str]]] = {
    "hidden": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("hidden"), stroke_linecap="butt"),
    "trim": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("hidden"), stroke_linecap="butt"),
    "centre": lambda: _line("measure", "rest", stroke_dasharray=_dashes("centre")),
    "fold": lambda: _line("cloth", "rest", stroke_dasharray=_dashes("centre")),
    "thin": lambda: _line("cloth", "rest"),
    "clip": lambda: _line("cloth", "clip"),
    "chalk": lambda: _line("cloth", "hand", stroke_dasharray=_dashes("chalk"), stroke_linecap="butt"),
    "cut": lambda: _line("cloth", "hand"),
    "zigzag": lambda: _line("stitch", "rest"),
    "baste": lambda: _line("stitch", "rest", stroke_dasharray=_dashes("baste"), stroke_linecap="butt"),
    "stitch": lambda: _line("stitch", "stitch", stroke_dasharray=_dashes("dashes"), stroke_linecap="butt"),
    "hand": lambda: _line("stitch", "stitch"),
    "arrow": lambda: _line("arrow", "hand"),
}


def stroke_ink(kind: str) -> dict[str, str]:
    """How a kind of line is inked, for the key."""
    return _INK[kind]()
