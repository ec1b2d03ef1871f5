"""Outlines from SVG: a group for every piece, and in it, or round it, a group for every size; see steps/README.md.

Read as data by expat: nothing in the file is run, fetched or followed.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, NamedTuple

from booklet.record import Record, fresh
from booklet.shape.known import Known, plain
from booklet.shape.marks import Marks, outline_of
from booklet.shape.outline import BadOutline, OutlineFile
from booklet.shape.plane import Plane, plane
from booklet.shape.svg_shapes import NUMBER, SHAPES, UNITS, courses_of
from booklet.shape.unfollowed import refuse_moving_style, refuse_unfollowed, refuse_unsized, unfollowed

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.shape.course import Course, Point

# How many bytes, elements and nested groups of one file are read? Our choice: twenty pieces in ten sizes, drawn with
# curves, take some 2 MB.
MOST_BYTES = 16_000_000
MOST_ELEMENTS = 200_000
DEEPEST = 60

_SIZE = re.compile(r"\s*([0-9]*\.?[0-9]+(?:e[-+]?[0-9]+)?)\s*([a-z]*)\s*\Z", re.IGNORECASE)

# What a line, a dot or a group of them is called, and which mark it then is. Our choice of words.
_KINDS = {
    "cut": "cut",
    "cutting line": "cut",
    "sew": "sew",
    "sewing line": "sew",
    "corner": "corners",
    "notch": "notches",
    "double notch": "notches",
    "dot": "holes",
    "grain": "grains",
    "fold": "folds",
    "inner": "lines",
    "inner line": "lines",
    "cutout": "cutouts",
}
_NOTCHES = {"t notch": "t", "castle notch": "castle", "check notch": "check", "u notch": "u", "v notch": "v"}
# What draws nothing in its place, whatever it holds.
_UNDRAWN = ("defs", "symbol", "clipPath", "mask", "pattern", "marker", "metadata", "foreignObject")


class _Drawn(NamedTuple):
    """One shape: which mark it is, of which kind of notch, and its courses in millimetres."""

    mark: str
    notch: str
    courses: tuple[Course, ...]


class _Group(Record):
    """An open element: its names, its place on the paper, the mark that it makes of all in it, and what is in it.

    why: what is drawn in it is not in its place, for this reason; copies: whether it draws by reference (`use`).
    """

    tag: str
    names: list[str]
    plane: Plane
    mark: tuple[str, str] = ("", "")
    shapes: list[_Drawn] = fresh(default_factory=list)
    groups: list[_Group] = fresh(default_factory=list)
    texts: list[str] = fresh(default_factory=list)
    hidden: bool = False
    why: str = ""
    copies: bool = False


def read_svg(data: bytes, known: Known) -> OutlineFile:
    """Every piece that the pattern knows. Raises BadOutline where the file can't be read, whatever is in it."""
    if len(data) > MOST_BYTES:
        raise BadOutline(
            f"This file of outlines is larger than {MOST_BYTES // 1_000_000} MB.",
            "Save fewer pieces or sizes into one file, or simplify its curves.",
        )
    reader = _Reader()
    root = reader.read(data)
    outlines, bad = [], []
    for marks in _pieces(root, known, "", ""):
        try:
            outlines.append(outline_of(marks))
        except BadOutline as error:
            bad.append((f"{marks.name} {marks.size}".strip(), error))
    lineless = tuple(_lineless(root, known))
    if not outlines and not bad and not lineless:
        named = [name for group in _walk(root) for name in group.names[:1]]
        raise BadOutline(
            "No group of this drawing has the name of a piece"
            + (f"; its groups are called {', '.join(f'“{name[:30]}”' for name in named[:5])}." if named else "."),
            "Draw each piece in a group of its own, and give the group the piece's name.",
        )
    strange = [
        group.names[0] for group in _walk(root) if group.names and _has_cut(group) and not _is_named(group, known)
    ]
    return OutlineFile(tuple(outlines), tuple(bad), tuple(strange), lineless, reader.unsized)


def _lineless(root: _Group, known: Known) -> Iterator[tuple[str, str]]:
    """Groups that have the name of a piece, and draw no cutting line in them."""
    for group in _walk(root):
        name = next((name for name in group.names if known.told(name) is not None), None)
        if name is not None and not group.hidden and not any(map(_has_cut, _walk(group))):
            copies = any(inner.copies for inner in _walk(group))
            yield (
                name,
                "no closed line in its group is called “cut”"
                + (", and copies (use) are not followed" if copies else ""),
            )


def _walk(group: _Group) -> Iterator[_Group]:
    yield group
    for inner in group.groups:
        yield from _walk(inner)


def _has_cut(group: _Group) -> bool:
    return any(drawn.mark == "cut" for inner in (group, *group.groups) for drawn in inner.shapes)


def _pieces(group: _Group, known: Known, piece: str, size: str) -> Iterator[Marks]:
    """From the outside in: the group's name tells its piece, its size or both; then what it draws is that piece's."""
    for name in group.names:
        told = known.told(name)
        if told is not None:
            piece, size = f"{told.piece} {told.fitting}".strip(), told.size or size
            break
        sized = known.size(name)
        if sized is not None:
            size = sized
            break
    marks = Marks(piece, size)
    _gather(group, marks, known)
    if piece and marks.cut:
        yield marks
    for inner in group.groups:
        if not inner.hidden and _is_named(inner, known):
            yield from _pieces(inner, known, piece, size)
        elif not inner.hidden:
            yield from _deeper(inner, known, piece, size)


def _deeper(group: _Group, known: Known, piece: str, size: str) -> Iterator[Marks]:
    """Named groups inside groups that name neither a piece nor a size."""
    for inner in group.groups:
        if not inner.hidden and _is_named(inner, known):
            yield from _pieces(inner, known, piece, size)
        elif not inner.hidden:
            yield from _deeper(inner, known, piece, size)


def _is_named(group: _Group, known: Known) -> bool:
    return any(known.told(name) is not None or known.size(name) is not None for name in group.names)


def _gather(group: _Group, marks: Marks, known: Known) -> None:
    """What a group draws, and its groups that have no name of their own."""
    for drawn in group.shapes:
        if drawn.mark == "notches":
            marks.notches += [(course, drawn.notch, 0.0) for course in drawn.courses]
        elif drawn.mark in ("corners", "holes"):
            getattr(marks, drawn.mark).extend(_middle(course) for course in drawn.courses)
        elif drawn.mark:
            getattr(marks, drawn.mark).extend(drawn.courses)
    marks.texts += group.texts
    for inner in group.groups:
        if not inner.hidden and not _is_named(inner, known):
            _gather(inner, marks, known)


def _middle(course: Course) -> Point:
    xs, ys = zip(*course.all_points(), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


class _Reader:
    """Takes the elements as they come."""

    def __init__(self) -> None:
        self.open: list[_Group] = []
        self.root: _Group | None = None
        self.count = 0
        self.words: list[str] | None = None
        self.sheet: list[str] = []
        self.unsized = False

    def read(self, data: bytes) -> _Group:
        from pyexpat import ExpatError, ParserCreate

        parser = ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._chars
        parser.EntityDeclHandler = self._entity
        try:
            parser.Parse(data, True)
        except BadOutline:
            raise
        except (ExpatError, ValueError, LookupError) as error:
            raise BadOutline(
                f"This drawing can't be read: {str(error)[:80]}.", "Save it again as a plain SVG."
            ) from None
        assert self.root is not None
        refuse_moving_style("".join(self.sheet))
        return self.root

    def _entity(self, *_: object) -> None:
        raise BadOutline(
            "This drawing has entities of its own, which are not followed.", "Save it again as a plain SVG."
        )

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        tag = name.rpartition(" ")[2]
        own = {key.rpartition(" ")[2]: value for key, value in attributes.items()}
        self.count += 1
        if self.count > MOST_ELEMENTS or len(self.open) > DEEPEST:
            raise BadOutline(
                f"This drawing has more than {MOST_ELEMENTS:,} elements, or more than {DEEPEST} groups in one another.",
                "Save fewer pieces or sizes into one file.",
            )
        if not self.open:
            if tag != "svg" or self.root is not None:
                raise BadOutline("This file is not an SVG drawing.", "Save it again as a plain SVG.")
            self.root = _Group(tag, [], _paper(own))
            self.unsized = not own.get("viewBox") and not own.get("width")
            self.open.append(self.root)
            return
        above = self.open[-1]
        group = _Group(tag, _names(own), above.plane.after(plane(own.get("transform", ""))), above.mark)
        group.mark = _mark(own, group.names) or above.mark
        group.hidden = above.hidden or tag in _UNDRAWN or _is_hidden(own)
        group.why = above.why or unfollowed(tag, own)
        if tag in ("title", "text", "tspan"):
            self.words = [] if tag != "tspan" or self.words is None else self.words
        elif tag == "use":
            above.copies = True
        elif tag in SHAPES and not group.hidden:
            if group.mark[0]:
                refuse_unfollowed(group.why, tag, own)
            courses = tuple(course.moved(group.plane.point) for course in courses_of(tag, own))
            above.shapes.append(_Drawn(*group.mark, courses))
        elif tag in ("g", "a", "svg", "switch") or tag in _UNDRAWN:
            above.groups.append(group)
        self.open.append(group)

    def _chars(self, words: str) -> None:
        if self.words is not None and len(self.words) < 100:
            self.words.append(words)
        elif self.open and self.open[-1].tag == "style":
            self.sheet.append(words)

    def _end(self, name: str) -> None:
        group = self.open.pop()
        if group.tag in ("title", "text") and self.words is not None and self.open:
            said = " ".join("".join(self.words).split())[:200]
            if group.tag == "text":
                self.open[-1].texts.append(said)
            elif self.open[-1].tag in ("g", "a", "svg"):
                self.open[-1].names.insert(0, said)
            self.words = None


def _names(own: dict[str, str]) -> list[str]:
    """What an element is called, the plainest first: its data-name, the label of its layer, its id."""
    return [own[key][:200] for key in ("data-name", "label", "id") if own.get(key)]


def _mark(own: dict[str, str], names: list[str]) -> tuple[str, str] | None:
    """Which mark a class or a name says: `cut`, `notch`, `Notch 3`, `corners`; and the kind of notch."""
    for word in (*own.get("class", "").split()[:20], *names):
        words = re.sub(r"[\s0-9]+\Z", "", plain(word)).removesuffix("s")
        words = words.removesuffix("e") if words == "notche" else words
        if words in _NOTCHES:
            return "notches", _NOTCHES[words]
        if words in _KINDS:
            return _KINDS[words], "slit"
    return None


def _is_hidden(own: dict[str, str]) -> bool:
    return own.get("display", "").strip() == "none" or "display:none" in own.get("style", "").replace(" ", "")


def _paper(own: dict[str, str]) -> Plane:
    """From the drawing's own units to millimetres: by its width and viewBox, or 96 to the inch."""
    width, box = _length(own.get("width", "")), [float(text) for text in NUMBER.findall(own.get("viewBox", ""))[:4]]
    height = _length(own.get("height", ""))
    if len(box) == 4 and box[2] > 0 and box[3] > 0:
        if width and height:
            scale = min(width / box[2], height / box[3])
        else:
            if not width and not height:
                refuse_unsized(own)
            scale = width / box[2] if width else height / box[3]
    else:
        scale = UNITS["px"]
    if not (0 < scale < 10_000):
        raise BadOutline("This drawing does not say how large it is.", "Save it with a width in mm and a viewBox.")
    return Plane(scale, 0.0, 0.0, scale, 0.0, 0.0)


def _length(text: str) -> float:
    """In millimetres; 0 for what is no length, such as 100%."""
    match = _SIZE.match(text)
    if not match or (match[2] and match[2].lower() not in UNITS):
        return 0.0
    return float(match[1]) * UNITS[match[2].lower() or "px"]
