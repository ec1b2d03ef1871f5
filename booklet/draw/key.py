"""The key to the figures: a swatch for each kind of tone and line."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from booklet.draw import svg
from booklet.draw.cloth import Pen
from booklet.draw.drawing import Drawing
from booklet.draw.ink import colour, look, millimetres, onward_length, points
from booklet.draw.place import place
from booklet.draw.scene import Layer, Scene, Stitch
from booklet.draw.section import named


def draw_key(kind: str) -> Drawing:
    """The swatch of one kind, 12 by 8 mm. Raises ValueError, naming the kinds there are, for any other."""
    if kind not in _SWATCHES:
        raise ValueError(f"no swatch for {kind!r}; there are {', '.join(_SWATCHES)}")
    wide, high = millimetres("key", "width"), millimetres("key", "height")
    shows, ink = _SWATCHES[kind]
    drawing = svg.document(wide, high, shows)
    ink(drawing, wide, high)
    text = drawing.tostring()
    return Drawing(named(f"key {kind}", text), text, wide, high, False, shows, kind.capitalize())


def _cloth(face: str, *, up: bool = True) -> Callable[[Any, float, float], None]:
    """A piece seen from above, and its near edge from the side."""

    def ink(drawing: Any, wide: float, high: float) -> None:
        line, band = points("cloth", "line"), millimetres("cloth", "band")
        left, right, top = 0.5, wide - 0.5, 0.4
        edge = high - line / 2 - (0.3 if up else band + 0.3)
        side = edge - line / 2 - (band if up else 0)
        if up:
            _surface(drawing, face, left, right, top, side)
        outline = svg.group(
            drawing, "edge", stroke=colour("measure"), stroke_width=svg.number(points("measure", "line"))
        )
        outline.add(drawing.path(f"M{left} {svg.number(edge)}V{top}H{right}V{svg.number(edge)}"))
        drawing.add(outline)
        layer = Layer(Pen(left, edge, 1).to(right).path(), face, 1 if up else -1, (False, False))
        svg.scene(drawing, place(Scene((layer,))), drawing)

    return ink


def _surface(drawing: Any, face: str, left: float, right: float, top: float, bottom: float) -> None:
    """The face of the cloth from above: the tone and the hatch that its edge has from the side."""
    wide, high = right - left, bottom - top
    number = svg.number
    made = svg.group(drawing, f"face-{face}")
    if face == "self":
        table = look()["right_side"]
        made.add(
            drawing.rect((number(left), number(top)), (number(wide), number(high)), fill=table["tone"], stroke="none")
        )
        middle = f"M{number(left)} {number((top + bottom) / 2)}H{number(right)}"
        weight = points("right_side", "weight")
        dashes = f"{number(weight)} {number(table['every'] - weight)}"
        made.add(drawing.path(middle, stroke=table["hatch"], stroke_width=number(high), stroke_dasharray=dashes))
    elif face == "interfacing":
        table = look()["interfacing"]
        rows = int(high / table["every"])
        data = "".join(
            f"M{number(left + table['every'] * (0.5 + row % 2 / 2))} {number(bottom - table['every'] * (row + 0.5))}"
            f"H{number(right - 0.2)}"
            for row in range(rows)
        )
        dots = {"stroke_linecap": "round", "stroke_dasharray": f"0.01 {number(table['every'])}"}
        made.add(drawing.path(data, stroke=table["hatch"], stroke_width=number(table["dot"]), **dots))
    else:
        table = look()["lining"]
        made.add(
            drawing.path(
                _slanted(left, right, top, bottom, table["every"] * 1.2),
                stroke=table["hatch"],
                stroke_width=number(points("lining", "weight")),
            )
        )
    drawing.add(made)


def _slanted(left: float, right: float, top: float, bottom: float, every: float) -> str:
    """Lines at 45 degrees across a rectangle, cut at its edges."""
    data, start, high = [], left - (bottom - top) + every / 2, bottom - top
    while start < right:
        x0, x1 = max(start, left), min(start + high, right)
        y0, y1 = top + (x0 - start), top + (x1 - start)
        data.append(f"M{svg.number(x0)} {svg.number(y0)}L{svg.number(x1)} {svg.number(y1)}")
        start += every
    return "".join(data)


def _stitching(drawing: Any, wide: float, high: float) -> None:
    """From above, dashes; from the side, a short stroke through the layers."""
    dashes = " ".join(svg.number(length) for length in look()["key_lines"]["stitching"])
    made = svg.group(
        drawing,
        "stitching",
        stroke=colour("stitch"),
        stroke_width=svg.number(points("stitch", "line")),
        stroke_linecap="round",
    )
    made.add(drawing.path(f"M0.5 1.5H{svg.number(wide - 0.5)}", stroke_dasharray=dashes))
    drawing.add(made)
    pitch = millimetres("cloth", "pitch")
    y = high - 1.2 - pitch
    reach = onward_length()
    layers = tuple(
        Layer(Pen(reach + 0.5, y + level * pitch, 1).to(wide - reach - 0.5).path(), "self", 0, (True, True))
        for level in (0, 1)
    )
    beyond = millimetres("stitch", "beyond")
    stitch = Stitch((wide / 2, y - beyond), (wide / 2, y + pitch + beyond))
    svg.scene(drawing, place(Scene(layers, (stitch,))), drawing)


def _cut_edge(drawing: Any, wide: float, high: float) -> None:
    """A layer that ends, and what was trimmed off it."""
    path = Pen(onward_length() + 0.5, high / 2, 1).to(7.4).path()
    ghost = Pen(8.3, high / 2, 1).to(wide - 0.5).path()
    svg.scene(drawing, place(Scene((Layer(path, "self", 1),), ghosts=(ghost,))), drawing)


def _fold(drawing: Any, wide: float, high: float) -> None:
    pitch = millimetres("cloth", "pitch")
    path = Pen(onward_length() + 0.5, (high - pitch) / 2, 1).fold_at(wide - 1.8, pitch).to(onward_length() + 2.4).path()
    svg.scene(drawing, place(Scene((Layer(path, "self", 1),))), drawing)


def _press(drawing: Any, wide: float, high: float) -> None:
    path = Pen(2.5, high / 2, 1).to(wide - 2.5).path()
    drawing.add(svg.arrows(drawing, (path,)))


def _grain(drawing: Any, wide: float, high: float) -> None:
    """Long and short dashes."""
    dashes = " ".join(svg.number(length) for length in look()["key_lines"]["grain"])
    made = svg.group(
        drawing,
        "grain",
        stroke=colour("cloth"),
        stroke_width=svg.number(points("key_lines", "hidden") * 1.4),
        stroke_linecap="round",
        stroke_dasharray=dashes,
    )
    made.add(drawing.path(f"M0.6 {svg.number(high / 2)}H{svg.number(wide - 0.6)}"))
    drawing.add(made)


# What is in the key? kind: what it shows, and the hand that draws it.
_SWATCHES: dict[str, tuple[str, Callable[[Any, float, float], None]]] = {
    "right side": ("Right side of the cloth: grey, with ribs", _cloth("self")),
    "wrong side": ("Wrong side of the cloth: white", _cloth("self", up=False)),
    "interfacing": ("Interfacing: white, with dots", _cloth("interfacing")),
    "lining": ("Lining: white, with diagonal lines", _cloth("lining")),
    "stitching": ("Stitching: dashes from above, a short stroke through the layers from the side", _stitching),
    "cut edge": ("Cut edge: the line of the cloth ends; what was trimmed off is dashed", _cut_edge),
    "fold": ("Fold: the line of the cloth turns back in a half circle", _fold),
    "press arrow": ("Press, turn or fold this way: an arrow with an open head", _press),
    "grain": ("Grain: a line of long and short dashes", _grain),
}
