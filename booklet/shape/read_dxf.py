"""Outlines from DXF: a block for every piece and size, on the layers of the pattern-interchange standard.

Which layer holds what: layers.py. Source of the kinds of the drawing's units: the DXF Reference, header variable
$INSUNITS.
"""

from __future__ import annotations

import itertools
import re
from functools import cached_property
from typing import TYPE_CHECKING, Any

from booklet.shape.arc import circle, svg_arc
from booklet.shape.course import Course, Part, distance
from booklet.shape.layers import COURSES, NOTCHES, POINTS, listed_layers, number_of
from booklet.shape.marks import Marks, dot, outline_of
from booklet.shape.outline import BadOutline, OutlineFile
from booklet.shape.ring import closed_rings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.shape.course import Point

# How many bytes of one file are read, how many pieces and how many entities? Our choice: twenty pieces in twenty sizes,
# drawn point by point, take some 10 MB.
MOST_BYTES = 16_000_000
MOST_PIECES = 1_000
MOST_ENTITIES = 200_000
# How deep may blocks stand in blocks, and how many entities may they bring? Our choice.
DEEPEST, MOST_NESTED = 4, 20_000
BROKEN_OFF = "it breaks off before its end"

# How many millimetres is one unit of $INSUNITS? Source: DXF Reference: 1 inch, 2 foot, 4 mm, 5 cm, 6 m, 9 mil,
# 13 micron, 14 dm.
_UNITS = {1: 25.4, 2: 304.8, 4: 1.0, 5: 10.0, 6: 1000.0, 9: 0.0254, 13: 0.001, 14: 100.0}
_SAID = {"metric": 1.0, "mm": 1.0, "millimetres": 1.0, "millimeters": 1.0, "cm": 10.0, "english": 25.4, "inch": 25.4}
_SAID |= {"inches": 25.4, "in": 25.4, "centimetres": 10.0, "centimeters": 10.0, "imperial": 25.4}
_SAID |= {"millimetre": 1.0, "millimeter": 1.0, "centimetre": 10.0, "centimeter": 10.0}

_DRAWN = ("LINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE", "LWPOLYLINE", "POLYLINE")

# What is written on a piece: `Piece Name: front`, `Size: 12`. Source: the standard's system text; the short forms are
# common practice, no source.
_NAME = re.compile(r"\s*(?:piece|part|piece name|part name|pattern piece)\s*[:=]\s*(\S.*?)\s*\Z", re.IGNORECASE)
_SIZE = re.compile(r"\s*(?:size|size name|sz)\s*(?:[:=]\s*|\s)(\S.*?)\s*\Z", re.IGNORECASE)
_UNIT = re.compile(r"\s*units?\s*[:=]\s*(\S+)\s*\Z", re.IGNORECASE)


def read_dxf(data: bytes) -> OutlineFile:
    """Every piece of a file. Raises BadOutline where the file can't be read, whatever is in it."""
    if len(data) > MOST_BYTES:
        raise BadOutline(
            f"This file of outlines is larger than {MOST_BYTES // 1_000_000} MB.",
            "Save fewer sizes into one file, or fewer points along the curves.",
        )
    import warnings

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # numpy's, of numbers beyond all bounds; they are refused by us
            return _File(_document(data), _whole(data)).read()
    except BadOutline:
        raise
    except (Exception, RecursionError) as error:  # whatever ezdxf meets in a broken file
        raise _unreadable(type(error).__name__ if _whole(data) else BROKEN_OFF) from None


def _whole(data: bytes) -> bool:
    """Whether a file comes to the end that every DXF has."""
    return data.rstrip().endswith(b"EOF")


def _unreadable(why: str) -> BadOutline:
    return BadOutline(
        f"This file can't be read as DXF ({why}).",
        "Save it again from your drafting program as DXF.",
    )


def _document(data: bytes) -> Any:
    import io
    import logging

    logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    from ezdxf import filemanagement, recover
    from ezdxf.lldxf.const import DXFError

    if b"SECTION" not in data[:1_000_000]:
        raise _unreadable("it has no sections")
    try:
        return filemanagement.read(io.StringIO(data.decode("utf-8"), newline=None))
    except Exception:
        pass  # not as the standard has it, or in an older encoding: the slower reader takes more
    try:
        document, _ = recover.read(io.BytesIO(data))
    except (DXFError, OSError) as error:
        why = str(error)[:80] or type(error).__name__
        raise _unreadable(why if _whole(data) else BROKEN_OFF) from None
    return document


class _File:
    def __init__(self, document: Any, whole: bool) -> None:
        self.document = document
        self.whole = whole
        self.room = MOST_ENTITIES
        self.nested = MOST_NESTED
        self.unsized = False
        self.scale = self._scale()
        self.lineless: list[tuple[str, str]] = []

    def read(self) -> OutlineFile:
        outlines, bad = [], []
        for marks in self._pieces():
            try:
                self._refuse_scaled(marks)
                outlines.append(outline_of(marks))
            except BadOutline as error:
                bad.append((f"{marks.name} {marks.size}".strip(), error))
        if not outlines and not bad and not self.whole:
            raise _unreadable(BROKEN_OFF)
        if not outlines and not bad:
            used = {layer for layout in self.document.blocks for layer in _layers(layout)}
            where = f"on layer 1, where cutting lines belong, but on {listed_layers(used)}" if used else "in it"
            raise BadOutline(
                f"This file holds no piece: nothing is drawn {where}.",
                "Save it from your drafting program as pattern pieces, a block each, with the layers of ASTM D6673.",
            )
        return OutlineFile(tuple(outlines), tuple(bad), lineless=tuple(self.lineless), unsized=self.unsized)

    def _refuse_scaled(self, marks: Marks) -> None:
        """A block is read in its own size, so it has to be placed in it; mirrored or turned it may be."""
        sizes = self._placed.get(marks.label, {1.0})
        if 1.0 not in sizes:
            raise BadOutline(
                f"The block of the {marks.name} is placed {max(sizes):.4g} times as large as it is drawn.",
                "Draw the block in its true size, and place it unscaled.",
            )

    @cached_property
    def _placed(self) -> dict[str, set[float]]:
        """How many times as large each block is placed in the drawing, across and down."""
        found: dict[str, set[float]] = {}
        for insert in itertools.islice(self.document.modelspace().query("INSERT"), MOST_ENTITIES):
            scales = {round(abs(insert.dxf.get(key, 1.0)), 6) for key in ("xscale", "yscale")}
            found.setdefault(_decoded(insert.dxf.get("name", "")), set()).update(scales)
        return found

    def _scale(self) -> float:
        """Millimetres to a unit: what the file says in words, then its header."""
        for text in self._texts(self.document.modelspace()):
            if (match := _UNIT.match(text)) and match[1].lower() in _SAID:
                return _SAID[match[1].lower()]
        for block in itertools.islice(self.document.blocks, MOST_PIECES):
            for text in self._texts(block):
                if (match := _UNIT.match(text)) and match[1].lower() in _SAID:
                    return _SAID[match[1].lower()]
        header = self.document.header
        units = header.get("$INSUNITS", 0)
        if units in _UNITS:
            return _UNITS[units]
        self.unsized = True
        return 25.4 if "$MEASUREMENT" in header and header["$MEASUREMENT"] == 0 and self._is_small() else 1.0

    def _is_small(self) -> bool:
        """Inches by their size: a header that says nothing often says “imperial” too."""
        corners = self.document.header.get("$EXTMAX", (0, 0))
        return bool(0 < max(abs(corners[0]), abs(corners[1])) < 120)

    def _texts(self, layout: Any) -> Iterator[str]:
        for entity in layout:
            if entity.dxftype() in ("TEXT", "MTEXT", "ATTRIB", "ATTDEF"):
                yield _text(entity)

    def _pieces(self) -> Iterator[Marks]:
        blocks = [block for block in self.document.blocks if not block.is_any_layout]
        found = 0
        for block in blocks:
            if not any(_layer(entity) == 1 and entity.dxftype() in _DRAWN for entity in block):
                self._say_lineless(block)
                continue
            found += 1
            if found > MOST_PIECES:
                raise BadOutline(
                    f"This file holds more than {MOST_PIECES} pieces.", "Save fewer pieces or sizes into one file."
                )
            yield self._named(self._marks(block), _decoded(block.name))
        if not found:
            yield from self._loose()

    def _say_lineless(self, block: Any) -> None:
        """Which layers a block draws on that has nothing on layer 1."""
        layers = _layers(block)
        if layers and len(self.lineless) < MOST_PIECES:
            named = self._named(Marks("", texts=list(self._texts(block))), _decoded(block.name))
            self.lineless.append((named.name, f"its block draws only on {listed_layers(layers)}"))

    def _marks(self, layout: Any) -> Marks:
        marks = Marks("")
        for entity in self._entities(layout, 0):
            self._add(marks, entity)
        return marks

    def _entities(self, layout: Any, depth: int) -> Iterator[Any]:
        """Those of a block, and of the blocks placed in it."""
        for entity in layout:
            self.room -= 1
            self.nested -= depth > 0
            if self.room < 0 or self.nested < 0:
                raise BadOutline(
                    "This file draws more things than are read.", "Save fewer sizes or marks into one file."
                )
            if entity.dxftype() != "INSERT":
                yield entity
            elif depth < DEEPEST:
                yield from self._entities(entity.virtual_entities(), depth + 1)

    def _add(self, marks: Marks, entity: Any) -> None:
        layer, kind = _layer(entity), entity.dxftype()
        if kind in ("TEXT", "MTEXT", "ATTRIB", "ATTDEF"):
            marks.texts.append(_text(entity))
        elif layer in POINTS:
            rows = marks.corners if layer == 2 else marks.holes
            if kind == "POINT":
                rows.append(self._point(entity.dxf.location))
            elif kind == "CIRCLE":
                rows.append(self._point(entity.ocs().to_wcs(entity.dxf.center)))
            elif layer == 13 and kind in _DRAWN and (course := self._course(entity)):
                rows.append(_middle(course))
        elif layer in NOTCHES:
            if kind == "POINT":
                at = entity.dxf.location
                marks.notches.append((dot(self._point(at)), NOTCHES[layer], self._depth(entity)))
            elif kind in _DRAWN and (course := self._course(entity)):
                marks.notches.append((course, NOTCHES[layer], 0.0))
        elif layer in COURSES and kind in _DRAWN and (course := self._course(entity)):
            getattr(marks, COURSES[layer]).append(course)

    def _depth(self, notch: Any) -> float:
        """Of a notch that is a point: its height above the paper, or its thickness."""
        depth = abs(notch.dxf.location.z) or abs(notch.dxf.get("thickness", 0.0))
        return depth * self.scale if depth * self.scale < 50 else 0.0

    def _point(self, vector: Any) -> Point:
        return vector.x * self.scale, 0.0 - vector.y * self.scale

    def _course(self, entity: Any) -> Course | None:
        """Its lines and curves; None for a thing without length, or one that ezdxf can't follow."""
        from ezdxf.path import Curve3To, Curve4To, make_path

        if entity.dxftype() == "CIRCLE" and abs(entity.dxf.extrusion.z) == 1:
            radius = entity.dxf.radius * self.scale
            return circle(self._point(entity.ocs().to_wcs(entity.dxf.center)), radius, radius)
        if entity.dxftype() == "LWPOLYLINE" and entity.dxf.extrusion.z == 1:
            return self._polyline(entity)
        if entity.dxftype() == "POLYLINE" and not (entity.is_2d_polyline or entity.is_3d_polyline):
            return None
        try:
            path = make_path(entity, segments=8)
        except Exception:
            return None  # a spline without points, an arc without radius: nothing is drawn there
        start = self._point(path.start)
        here, parts = start, []
        for command in path.commands():
            end = self._point(command.end)
            if isinstance(command, Curve4To):
                parts.append(Part(end, (self._point(command.ctrl1), self._point(command.ctrl2))))
            elif isinstance(command, Curve3To):
                middle = self._point(command.ctrl)
                parts.append(Part(end, (_third(here, middle), _third(end, middle))))
            else:
                parts.append(Part(end))
            here = end
        return Course(start, tuple(parts)) if parts else None

    def _polyline(self, entity: Any) -> Course | None:
        """As ezdxf follows it, ten times as quick. A bulge is the tangent of a quarter of its arc's angle."""
        rows = [((x * self.scale, 0.0 - y * self.scale), bulge) for x, y, bulge in entity.get_points("xyb")]
        if entity.closed:
            rows.append((rows[0][0], 0.0))
        parts: list[Part] = []
        for (start, bulge), (end, _) in itertools.pairwise(rows):
            if abs(bulge) < 1e-9:
                parts += [Part(end)] if end != start else []
            else:
                radius = distance(start, end) / 4 * (abs(bulge) + 1 / abs(bulge))
                parts += svg_arc(start, radius, radius, 0.0, abs(bulge) > 1, bulge < 0, end)
        return Course(rows[0][0], tuple(parts)) if parts else None

    def _named(self, marks: Marks, block: str) -> Marks:
        """With the name and size that its texts say, or the block's name."""
        names = [match[1] for text in marks.texts if (match := _NAME.match(text))]
        sizes = [match[1] for text in marks.texts if (match := _SIZE.match(text))]
        marks.label = block
        marks.name = names[0] if names else block
        marks.size = sizes[0] if sizes else ""
        return marks

    def _loose(self) -> Iterator[Marks]:
        """Pieces drawn without blocks: every closed line on layer 1, with the marks that lie in its box."""
        whole = self._marks(self.document.modelspace())
        if not whole.cut:
            return
        rings = closed_rings(whole.cut, "pattern")
        if len(rings) > MOST_PIECES:
            raise BadOutline(
                f"This file holds more than {MOST_PIECES} pieces.", "Save fewer pieces or sizes into one file."
            )
        boxes = [_box(ring) for ring in rings]
        pieces = [Marks("", cut=[ring]) for ring in rings]
        for entity in self.document.modelspace():
            if _layer(entity) != 1 or entity.dxftype() in ("TEXT", "MTEXT"):
                alone = Marks("")
                self._add(alone, entity)
                at = self._place(entity, alone)
                if at is not None and (home := _home(at, boxes)) is not None:
                    _pour(alone, pieces[home])
        for number, marks in enumerate(pieces, 1):
            yield self._named(marks, f"piece {number}")

    def _place(self, entity: Any, alone: Marks) -> Point | None:
        if alone.texts:
            at = entity.dxf.get("insert")
            return self._point(at) if at is not None else None
        for row in (alone.corners, alone.holes):
            if row:
                return row[0]
        for course in (*(notch[0] for notch in alone.notches), *_all_courses(alone)):
            return course.start
        return None


def _all_courses(marks: Marks) -> Iterator[Course]:
    for kind in COURSES.values():
        yield from getattr(marks, kind)


def _pour(one: Marks, into: Marks) -> None:
    for field in ("corners", "notches", "sew", "folds", "grains", "lines", "cutouts", "holes", "texts"):
        getattr(into, field).extend(getattr(one, field))


Box = tuple[float, float, float, float]


def _box(ring: Course) -> Box:
    xs, ys = zip(*ring.all_points(), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _home(point: Point, boxes: list[Box]) -> int | None:
    """The smallest box around a point."""
    around = [
        at
        for at, (left, top, right, foot) in enumerate(boxes)
        if left - 1 <= point[0] <= right + 1 and top - 1 <= point[1] <= foot + 1
    ]
    return min(around, key=lambda at: (boxes[at][2] - boxes[at][0]) * (boxes[at][3] - boxes[at][1]), default=None)


def _layer(entity: Any) -> int:
    """The number of its layer; 0 for one that has another name."""
    return number_of(str(entity.dxf.get("layer", "0")))


def _layers(layout: Any) -> set[str]:
    """Those on which it draws lines or points."""
    return {
        _decoded(entity.dxf.get("layer", "0"))
        for entity in itertools.islice(layout, MOST_ENTITIES)
        if entity.dxftype() == "POINT" or entity.dxftype() in _DRAWN
    }


def _text(entity: Any) -> str:
    text = entity.plain_text() if hasattr(entity, "plain_text") else entity.dxf.get("text", "")
    return " ".join(_decoded(text).split())[:200]


def _decoded(text: Any) -> str:
    r"""With the signs that older files write as `\U+00C4`."""
    from ezdxf.lldxf.encoding import decode_dxf_unicode

    return str(decode_dxf_unicode(str(text)))


def _third(point: Point, middle: Point) -> Point:
    """The control of a cubic curve that is a quadratic one."""
    return point[0] + (middle[0] - point[0]) * 2 / 3, point[1] + (middle[1] - point[1]) * 2 / 3


def _middle(course: Course) -> Point:
    xs, ys = zip(*course.all_points(), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
