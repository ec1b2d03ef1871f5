"""Ink on paper: layers, stitches, measures and words as SVG elements, through svgwrite.

No ids and no definitions, so that many drawings stand in one page without meeting. Numbers have two decimals.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from booklet.draw.cloth import Path, Point, Turn
from booklet.draw.ink import colour, look, millimetres, points
from booklet.draw.place import Label, Placed, Rule, loop_round
from booklet.draw.scene import Layer, Loop, Scene, Stitch

if TYPE_CHECKING:
    from svgwrite.container import Group


def number(value: float) -> str:
    """At most two decimals, no trailing noughts, no minus nought."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def document(wide: float, high: float, shows: str) -> Any:
    """An empty drawing in millimetres, with its alternative text."""
    import svgwrite

    drawing = svgwrite.Drawing(size=(f"{number(wide)}mm", f"{number(high)}mm"), debug=False, profile="full")
    drawing.viewbox(0, 0, float(number(wide)), float(number(high)))
    drawing["role"] = "img"
    drawing.set_desc(title=shows)
    return drawing


def outline(path: Path) -> str:
    """A path's data."""
    x, y = path.start
    data = [f"M{number(x)} {number(y)}"]
    for part in path.parts:
        if isinstance(part, Turn):
            end = part.at(1)
            sweep = 1 if part.sweep > 0 else 0
            radius = number(part.radius)
            data.append(f"A{radius} {radius} 0 0 {sweep} {number(end[0])} {number(end[1])}")
        else:
            data.append(f"L{number(part.end[0])} {number(part.end[1])}")
    return "".join(data)


def group(drawing: Any, kind: str, **ink: Any) -> Group:
    made: Group = drawing.g(class_=f"figure-{kind}", fill="none", **ink)
    return made


def scene(drawing: Any, placed: Placed, into: Any) -> None:
    """Everything of one stage, faces first, words last."""
    drawn = placed.scene
    for kind in ("self", "lining", "interfacing"):
        layers = [layer for layer in drawn.layers if layer.cloth == kind and layer.face]
        if layers:
            into.add(_faces(drawing, kind, layers))
    into.add(_lines(drawing, drawn))
    if drawn.ghosts:
        ghosts = group(
            drawing,
            "trimmed",
            stroke=colour("measure"),
            stroke_width=number(points("measure", "line")),
            stroke_dasharray="0.9 0.7",
        )
        for path in drawn.ghosts:
            ghosts.add(drawing.path(outline(path)))
        into.add(ghosts)
    into.add(_stitching(drawing, drawn.stitches, drawn.loops))
    if drawn.arrows:
        into.add(arrows(drawing, drawn.arrows))
    if placed.rules:
        into.add(_rules(drawing, placed.rules))
    if placed.labels:
        into.add(words(drawing, placed.labels))


def _faces(drawing: Any, kind: str, layers: list[Layer]) -> Any:
    """The right side of each layer, a band beside its line: tone and ribs, diagonals for lining, or dots."""
    made = group(drawing, f"face-{kind}")
    band = millimetres("cloth", "band")
    for layer in layers:
        off = (points("cloth", "line") + band) / 2 * layer.face
        middle = layer.path.beside(off)
        data = outline(middle)
        if kind == "self":
            table = look()["right_side"]
            weight = points("right_side", "weight")
            made.add(drawing.path(data, stroke=table["tone"], stroke_width=number(band)))
            dashes = f"{number(weight)} {number(table['every'] - weight)}"
            made.add(drawing.path(data, stroke=table["hatch"], stroke_width=number(band), stroke_dasharray=dashes))
        elif kind == "interfacing":
            table = look()["interfacing"]
            made.add(
                drawing.path(
                    data,
                    stroke=table["hatch"],
                    stroke_width=number(table["dot"]),
                    stroke_linecap="round",
                    stroke_dasharray=f"0.01 {number(table['every'])}",
                )
            )
        else:
            table = look()["lining"]
            thin = number(points("lining", "weight"))
            edge = layer.path.beside((points("cloth", "line") / 2 + band) * layer.face)
            data = diagonals(middle, band, table["every"]) + outline(edge)
            made.add(drawing.path(data, stroke=table["hatch"], stroke_width=thin))
    return made


def diagonals(path: Path, band: float, every: float) -> str:
    """Short strokes across a band, slanting forwards by 45 degrees."""
    half = band / 2
    data = []
    for (x, y), (across, down) in path.walk(every):
        dx, dy = (across - down) * half, (down + across) * half
        data.append(f"M{number(x - dx)} {number(y - dy)}L{number(x + dx)} {number(y + dy)}")
    return "".join(data)


def _lines(drawing: Any, drawn: Scene) -> Any:
    made = group(drawing, "cloth", stroke=colour("cloth"), stroke_width=number(points("cloth", "line")))
    for layer in drawn.layers:
        made.add(drawing.path(outline(layer.path), stroke_linejoin="round"))
        data = ""
        if layer.onward[0]:
            data += _fading(layer.path.start, -1 if layer.path.start[0] < layer.path.points()[1][0] else 1)
        if layer.onward[1]:
            data += _fading(layer.path.end, 1)
        if data:
            made.add(drawing.path(data))
    return made


def _fading(start: Point, way: int) -> str:
    """Dashes in which the cloth goes on beyond the picture."""
    cloth = look()["cloth"]
    x, y = start
    data = ""
    for length in cloth["broken"]:
        x += way * cloth["broken_gap"]
        data += f"M{number(x)} {number(y)}H{number(x + way * length)}"
        x += way * length
    return data


def _stitching(drawing: Any, stitches: tuple[Stitch, ...], loops: tuple[Loop, ...]) -> Any:
    made = group(
        drawing,
        "stitching",
        stroke=colour("stitch"),
        stroke_width=number(points("stitch", "line")),
        stroke_linecap="round",
    )
    for stitch in stitches:
        (x0, y0), (x1, y1) = stitch
        made.add(drawing.line((_two(x0), _two(y0)), (_two(x1), _two(y1))))
    for loop in loops:
        made.add(drawing.path(_loop(loop), stroke_width=number(points("stitch", "loop"))))
    return made


def _two(value: float) -> float:
    return round(value, 2) + 0.0


def _loop(loop: Loop) -> str:
    """From the needle out over the layers, round the cut edge and back under them."""
    way = 1 if loop.edge >= loop.needle else -1
    out = loop_round(loop.top, loop.bottom)
    corner = number(out)
    sweep = 1 if way > 0 else 0
    needle, edge, turn = number(loop.needle), number(loop.edge), number(loop.edge + way * out)
    down, up = number(loop.top + out), number(loop.bottom - out)
    return (
        f"M{needle} {number(loop.top)}H{edge}A{corner} {corner} 0 0 {sweep} {turn} {down}"
        f"V{up}A{corner} {corner} 0 0 {sweep} {edge} {number(loop.bottom)}H{needle}Z"
    )


def arrows(drawing: Any, paths: tuple[Path, ...]) -> Any:
    """What hands do: one kind of arrow, its head open."""
    made = group(
        drawing,
        "hand",
        stroke=colour("arrow"),
        stroke_width=number(points("arrow", "line")),
        stroke_linecap="round",
        stroke_linejoin="round",
    )
    head = millimetres("arrow", "head")
    for path in paths:
        x, y = path.end
        last = path.parts[-1]
        if isinstance(last, Turn):
            angle = (last.start + last.sweep) * math.pi / 2 + (math.pi / 2 if last.sweep > 0 else -math.pi / 2)
            angle += (-1 if last.sweep > 0 else 1) * min(0.35, head / 2 / last.radius)
        else:
            angle = math.atan2(last.end[1] - last.start[1], last.end[0] - last.start[0])
        tips = [(x - head * math.cos(angle + spread), y - head * math.sin(angle + spread)) for spread in (0.6, -0.6)]
        (x0, y0), (x1, y1) = tips
        barbs = f"M{number(x0)} {number(y0)}L{number(x)} {number(y)}L{number(x1)} {number(y1)}"
        made.add(drawing.path(outline(path) + barbs))
    return made


def _rules(drawing: Any, rules: tuple[Rule, ...]) -> Any:
    made = group(drawing, "measure", stroke=colour("measure"), stroke_width=number(points("measure", "line")))
    for rule in rules:
        ticks = "".join(f"M{number(x)} {number(rule.near)}V{number(rule.far)}" for x in (rule.start, rule.end))
        made.add(drawing.path(f"M{number(rule.start)} {number(rule.y)}H{number(rule.end)}{ticks}"))
    return made


def words(drawing: Any, labels: tuple[Label, ...]) -> Any:
    made = drawing.g(
        class_="figure-words",
        fill=colour("words"),
        font_family=look()["words"]["family"],
        font_size=number(points("words", "size")),
    )
    for label in labels:
        anchor = {} if label.anchor == "start" else {"text_anchor": label.anchor}
        made.add(drawing.text(label.words, insert=(_two(label.x), _two(label.y)), **anchor))
    return made
