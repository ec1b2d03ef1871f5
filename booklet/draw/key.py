"""The key to the figures: a swatch for each kind of tone and line."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from booklet.draw import svg
from booklet.draw.cloth import Pen
from booklet.draw.drawing import Drawing
from booklet.draw.flat.ink import data_of_line, hatch, stroke_ink, tone
from booklet.draw.ink import colour, look, millimetres, onward_length, points
from booklet.draw.place import place
from booklet.draw.scene import Layer, Scene, Stitch
from booklet.draw.section import named

if TYPE_CHECKING:
    from booklet.shape.seamline import Flat


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
    """The face of the cloth from above, as the pieces of a step show it."""
    made = svg.group(drawing, f"face-{face}")
    if face != "interfacing":
        size = svg.number(right - left), svg.number(bottom - top)
        corner = svg.number(left), svg.number(top)
        made.add(drawing.rect(corner, size, fill=tone("right", face, False), stroke="none"))
    if face != "self":
        from shapely import box

        hatch(drawing, made, box(left, top, right, bottom), face, None)
    drawing.add(made)


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


def _across(kind: str) -> Callable[[Any, float, float], None]:
    """A kind of line of the pieces."""

    def ink(drawing: Any, wide: float, high: float) -> None:
        _lines(drawing, kind, kind, [((0.5, high / 2), (wide - 0.5, high / 2))])

    return ink


def _lines(drawing: Any, name: str, kind: str, lines: list[Flat]) -> None:
    made = svg.group(drawing, name.replace(" ", "-"))
    made.add(drawing.path("".join(data_of_line(line) for line in lines), fill="none", **stroke_ink(kind)))
    drawing.add(made)


def _zigzag(drawing: Any, wide: float, high: float) -> None:
    """Inside a cut edge."""
    edge = high * 0.66
    _lines(drawing, "edge", "cut", [((0.5, edge), (wide - 0.5, edge))])
    steps = int((wide - 1.0) / 0.75) + 1
    _lines(
        drawing, "zigzag", "zigzag", [tuple((0.5 + 0.75 * at, edge - (0.85 if at % 2 else 0.2)) for at in range(steps))]
    )


def _by_hand(drawing: Any, wide: float, high: float) -> None:
    """Over an edge, slanting."""
    edge = high / 2
    _lines(drawing, "edge", "thin", [((0.5, edge), (wide - 0.5, edge))])
    rows: list[Flat] = [((1.0 + 1.4 * at, edge + 0.45), (1.56 + 1.4 * at, edge - 0.45)) for at in range(8)]
    _lines(drawing, "hand", "hand", rows)


def _notches(drawing: Any, wide: float, high: float) -> None:
    """One, and two side by side, in from the edge."""
    edge = high * 0.66
    places = (wide * 0.28, wide * 0.66, wide * 0.66 + 0.9)
    _lines(drawing, "edge", "cut", [((0.5, edge), (wide - 0.5, edge))])
    _lines(drawing, "notch", "cut", [((x, edge), (x, edge - 1.3)) for x in places])


def _clips(drawing: Any, wide: float, high: float) -> None:
    """Cuts from the edge almost to the stitching; wedges beside them."""
    edge, row = high * 0.72, high * 0.72 - 3.0
    _lines(drawing, "edge", "cut", [((0.5, edge), (wide - 0.5, edge))])
    _lines(drawing, "stitching", "stitch", [((0.5, row), (wide - 0.5, row))])
    tips: list[Flat] = [((x, edge), (x, row + 0.5)) for x in (1.6, 3.2, 4.8)]
    tips += [((x - 0.8, edge), (x, row + 0.5), (x + 0.8, edge)) for x in (7.4, 9.8)]
    _lines(drawing, "clip", "clip", tips)


def _folded_edge(drawing: Any, wide: float, high: float) -> None:
    """A double line."""
    top, gap = high * 0.4, millimetres("key_lines", "fold_gap")
    _lines(drawing, "fold", "cut", [((0.5, top), (wide - 0.5, top))])
    _lines(drawing, "inner", "thin", [((0.5, top + gap), (wide - 0.5, top + gap))])


# What is in the key? kind: what it shows, and the hand that draws it.
_SWATCHES: dict[str, tuple[str, Callable[[Any, float, float], None]]] = {
    "right side": ("Right side of the cloth: grey, with ribs where it is seen from the side", _cloth("self")),
    "wrong side": ("Wrong side of the cloth: white", _cloth("self", up=False)),
    "interfacing": ("Interfacing: white, with dots", _cloth("interfacing")),
    "lining": ("Lining: diagonal lines", _cloth("lining")),
    "stitching": ("Stitching: dashes from above, a short stroke through the layers from the side", _stitching),
    "cut edge": ("Cut edge: the line of the cloth ends; what was trimmed off is dashed", _cut_edge),
    "fold": ("Fold: the line of the cloth turns back in a half circle", _fold),
    "press arrow": ("Press, turn or fold this way: an arrow with an open head", _press),
    "basting": ("Basting: a thin line of long dashes", _across("baste")),
    "zigzag": ("A finished edge: a zigzag along it", _zigzag),
    "hand stitches": ("Stitches by hand: short slanting strokes", _by_hand),
    "cut here": ("Cut here: a strong line", _across("cut")),
    "marked line": ("A line to be marked: strong dashes", _across("chalk")),
    "notch": ("Notches: short strokes in from the edge, one or two", _notches),
    "clip": ("Clips: cuts from the edge almost to the stitching; wedges where cloth is cut out", _clips),
    "folded edge": ("A folded edge: a double line", _folded_edge),
    "centre line": ("Centre: a thin line of long and short dashes", _across("centre")),
    "hidden edge": ("An edge under another layer: thin dashes", _across("hidden")),
    "grain": ("Grain: a line of long and short dashes", _grain),
}
