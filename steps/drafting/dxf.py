"""Writes pieces as DXF: a block a piece and size, on the layers of the pattern-interchange standard.

Source of the layers: ASTM D6673-10, Standard Practice for Sewn Products Pattern Data Interchange: Data Format, table of
layers, read in a reproduction of it.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterable
from typing import Any

from steps.drafting.path import Path, Point, straight
from steps.drafting.piece import Drafted, cut, notches

BOUNDARY, TURNS, CURVES, NOTCHES, MIRROR, GRAIN, INNER, HOLES, SEWING, TEXT = (
    "1", "2", "3", "4", "6", "7", "8", "13", "14", "15",
)  # fmt: skip
# Blocks are placed side by side in the drawing, for whoever opens it: a row a piece, a column a size, in millimetres.
COLUMN, ROW = 700.0, -1300.0


def written(title: str, pieces: Iterable[Drafted]) -> bytes:
    """The file, the same bytes for the same pieces."""
    import ezdxf
    from ezdxf.filemanagement import new

    ezdxf.options.write_fixed_meta_data_for_testing = True  # type: ignore[attr-defined]  # no date, no random name
    document = new("R2000", units=4)
    for layer in (BOUNDARY, TURNS, CURVES, NOTCHES, MIRROR, GRAIN, INNER, HOLES, SEWING, TEXT):
        document.layers.add(layer)
    rows: dict[str, int] = {}
    columns: dict[str, int] = {}
    for piece in pieces:
        name = f"{piece.name} {piece.size}".strip()
        _draw(document.blocks.new(name), title, piece)
        place = (
            columns.setdefault(piece.size, len(columns)) * COLUMN,
            rows.setdefault(piece.name, len(rows)) * ROW,
        )
        document.modelspace().add_blockref(name, place, {"layer": BOUNDARY})
    text = io.StringIO()
    document.write(text)
    return text.getvalue().replace("\r\n", "\n").encode("utf-8")


def _draw(block: Any, title: str, piece: Drafted) -> None:
    shape = cut(piece)
    _path(block, shape.ring, BOUNDARY, closed=True)
    for point in shape.corners:
        block.add_point(_up(point), {"layer": TURNS})
    for stretch in shape.ring.stretches:
        if all(_up(stretch.start) != _up(corner) for corner in shape.corners):
            block.add_point(_up(stretch.start), {"layer": CURVES})
    for place, end in notches(piece):
        block.add_point(
            (*_up(place), round(math.dist(place, end), 3)), {"layer": NOTCHES}
        )  # its height is the depth of the snip
    if shape.fold:
        _path(block, straight(*shape.fold), MIRROR)
    if piece.grain:
        _path(block, straight(*piece.grain), GRAIN)
    for line in piece.lines:
        _path(block, line, INNER)
    for dot in piece.dots:
        block.add_point(_up(dot), {"layer": HOLES})
    for edge in piece.edges:
        if edge.sewn:
            _path(block, edge.sewing or edge.line, SEWING)
    says = [f"Piece Name: {piece.name}", f"Size: {piece.size}", f"Quantity: {piece.quantity}", "Units: METRIC"]
    for at, text in enumerate(says):
        _text(block, text, at, BOUNDARY, shape.ring)
    _text(block, title, len(says), TEXT, shape.ring)


def _text(block: Any, text: str, line: int, layer: str, ring: Path) -> None:
    xs, ys = zip(*(stretch.start for stretch in ring.stretches), strict=True)
    place = (min(xs) + (max(xs) - min(xs)) * 0.3, (min(ys) + max(ys)) / 2 + 8 * line)
    block.add_text(text, height=5, dxfattribs={"layer": layer, "insert": _up(place)})


def _path(block: Any, path: Path, layer: str, closed: bool = False) -> None:
    """One polyline, its round stretches as bulges. The file's y runs up, so clockwise becomes anticlockwise."""
    rows = [(*_up(stretch.start), 0.0 - round(stretch.bulge, 7)) for stretch in path.stretches]
    if not closed:
        rows.append((*_up(path.end), 0.0))
    block.add_lwpolyline(rows, format="xyb", close=closed, dxfattribs={"layer": layer})


def _up(point: Point) -> Point:
    return round(point[0], 3) + 0.0, round(0.0 - point[1], 3) + 0.0
