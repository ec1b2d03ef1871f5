"""Writes a piece as SVG, one group with the piece's name, its lines told apart by their class; see steps/README.md."""

from __future__ import annotations

from html import escape

from steps.drafting.path import Path, Point, straight
from steps.drafting.piece import Drafted, cut, notches

AROUND = 10.0  # blank paper on every side, in millimetres
STYLE = (
    "path{fill:none;stroke:#000;stroke-width:.6}.sew{stroke-dasharray:5 2}.inner,.grain,.fold{stroke-width:.4}"
    ".corner,.dot{fill:none;stroke:#000;stroke-width:.4}text{font:8px sans-serif}"
)


def written(title: str, piece: Drafted) -> bytes:
    shape = cut(piece)
    points = shape.ring.points()
    left, top = min(x for x, _ in points) - AROUND, min(y for _, y in points) - AROUND
    wide = max(x for x, _ in points) + AROUND - left
    high = max(y for _, y in points) + AROUND - top
    rows = [_path("cut", shape.ring, closed=True)]
    rows += [_path("sew", edge.sewing or edge.line) for edge in piece.edges if edge.sewn]
    rows += [_dot("corner", point, 1.0) for point in shape.corners]
    rows += [_path("notch", straight(*notch)) for notch in notches(piece)]
    rows += [_path("inner", line) for line in piece.lines]
    rows += [_dot("dot", dot, 2.0) for dot in piece.dots]
    if shape.fold:
        rows.append(_path("fold", straight(*shape.fold)))
    if piece.grain:
        rows.append(_path("grain", straight(*piece.grain)))
    name = escape(piece.name)
    middle = left + wide / 2, top + high / 2
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_number(wide)}mm" height="{_number(high)}mm" '
        f'viewBox="{_number(left)} {_number(top)} {_number(wide)} {_number(high)}">',
        f"<title>{escape(title)}: {name}</title>",
        f"<style>{STYLE}</style>",
        f'<g id="{name.replace(" ", "-")}">',
        f"<title>{name}</title>",
        *rows,
        f'<text x="{middle[0]:.1f}" y="{middle[1]:.1f}" text-anchor="middle">{name}, cut {piece.quantity}</text>',
        "</g>",
        "</svg>",
    ]
    return ("\n".join(lines) + "\n").encode("utf-8")


def _path(kind: str, path: Path, closed: bool = False) -> str:
    words = [f"M{_place(path.start)}"]
    for stretch in path.stretches:
        if stretch.bulge:
            radius, clockwise = _number(stretch.radius), int(stretch.bulge > 0)
            words.append(f"A{radius} {radius} 0 {int(abs(stretch.bulge) > 1)} {clockwise} {_place(stretch.end)}")
        else:
            words.append(f"L{_place(stretch.end)}")
    if closed:
        words.append("Z")
    return f'<path class="{kind}" d="{" ".join(words)}"/>'


def _dot(kind: str, place: Point, radius: float) -> str:
    return f'<circle class="{kind}" cx="{_number(place[0])}" cy="{_number(place[1])}" r="{_number(radius)}"/>'


def _place(point: Point) -> str:
    return f"{_number(point[0])} {_number(point[1])}"


def _number(value: float) -> str:
    return f"{round(value, 3) + 0.0:.3f}".rstrip("0").rstrip(".")
