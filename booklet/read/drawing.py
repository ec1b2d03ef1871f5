"""A designer's own drawing: an SVG file of the pattern's folder, read as data."""

from __future__ import annotations

import re

from booklet.record import NamedTuple

# A drawing of a garment takes some 50 kB; past this it would slow every page. Our choice.
MOST_BYTES = 2_000_000
# How many millimetres is one <unit>? Source: CSS Values and Units Level 4, absolute lengths.
_UNITS = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6, "px": 25.4 / 96, "": 25.4 / 96}
_SIZE = re.compile(r"\s*([0-9]*\.?[0-9]+)\s*(mm|cm|in|pt|pc|px|)\s*\Z")
# Beyond this a size is no size. Our choice.
_WIDEST = 1_000_000.0
_OUTSIDE = re.compile(r"url\(\s*['\"]?\s*(?!#|['\"]|data:image/)|@import", re.IGNORECASE)
_ACTIVE = frozenset(
    {"script", "foreignObject", "iframe", "a", "animate", "set", "animateTransform", "animateMotion", "handler"}
    | {"audio", "video", "object", "embed", "link"}
)


class BadDrawing(ValueError):
    """Why a drawing is not taken: two sentences, what is wrong and the mend."""

    def __init__(self, says: str, mend: str) -> None:
        super().__init__(says)
        self.says = says
        self.mend = mend


class DrawingFile(NamedTuple):
    """The file's text, and its size in millimetres."""

    svg: str
    width_mm: float
    height_mm: float


def read_drawing(path: str) -> DrawingFile:
    """The drawing, or BadDrawing. Scripts, links, and whatever would be fetched from elsewhere are refused."""
    with open(path, "rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise BadDrawing("This drawing is larger than 2 MB.", "Simplify its paths, or take photographs out of it.")
    try:
        text = data.decode().removeprefix("\ufeff")
    except UnicodeDecodeError:
        raise BadDrawing("This drawing is not text in UTF-8.", "Save it again as a plain SVG.") from None
    root = _Elements().read(text)
    return DrawingFile(text, *_size(root))


class _Elements:
    """Looks at every element as it comes. expat alone: a tree costs a check 5 ms, and none is needed."""

    def __init__(self) -> None:
        self.root: dict[str, str] | None = None
        self.style: list[str] | None = None

    def read(self, text: str) -> dict[str, str]:
        """The attributes of the root."""
        from pyexpat import ExpatError, ParserCreate

        parser = ParserCreate(namespace_separator=" ")
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._words
        parser.EntityDeclHandler = self._entity
        parser.ProcessingInstructionHandler = self._instruction
        try:
            parser.Parse(text, True)
        except ExpatError as error:
            raise BadDrawing(f"This drawing can't be read: {error}.", "Save it again as a plain SVG.") from None
        assert self.root is not None
        return self.root

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        name = _short(name)
        if self.root is None:
            if name != "svg":
                raise BadDrawing("This file is not an SVG drawing.", "Save it again as a plain SVG.")
            self.root = attributes
        if name in _ACTIVE:
            raise BadDrawing(
                f"This drawing holds a “{name}”, which a booklet does not take.",
                "Take it out, or save it as a plain SVG.",
            )
        for key, value in attributes.items():
            _refuse(_short(key).lower(), value)
        if name == "style":
            self.style = []

    def _words(self, words: str) -> None:
        if self.style is not None:
            self.style.append(words)

    def _end(self, name: str) -> None:
        if self.style is None or _short(name) != "style":
            return
        if _OUTSIDE.search("".join(self.style)):
            raise BadDrawing(
                "The styles of this drawing speak of another file.", "Put what it needs into the drawing itself."
            )
        self.style = None

    def _instruction(self, target: str, _: str) -> None:
        if target == "xml-stylesheet":
            raise BadDrawing(
                "The styles of this drawing lie in another file.", "Put what it needs into the drawing itself."
            )

    def _entity(self, *_: object) -> None:
        raise BadDrawing(
            "This drawing has entities of its own, which are not followed.", "Save it again as a plain SVG."
        )


def _short(name: str) -> str:
    """Without its namespace."""
    return name.rpartition(" ")[2]


def _refuse(key: str, value: str) -> None:
    if key.startswith("on"):
        raise BadDrawing(f"This drawing holds a script, in “{key}”.", "Take it out, or save it as a plain SVG.")
    if key in ("href", "src") and not value.strip().startswith(("#", "data:image/")):
        raise BadDrawing(f"This drawing speaks of another file, “{value[:60]}”.", "Put it into the drawing itself.")
    if _OUTSIDE.search(value):
        raise BadDrawing("This drawing speaks of another file.", "Put what it needs into the drawing itself.")


def _size(root: dict[str, str]) -> tuple[float, float]:
    width, height = _SIZE.match(root.get("width", "")), _SIZE.match(root.get("height", ""))
    if width and height and float(width[1]) > 0 and float(height[1]) > 0:
        return float(width[1]) * _UNITS[width[2]], float(height[1]) * _UNITS[height[2]]
    box = root.get("viewBox", "").replace(",", " ").split()
    try:
        across, down = float(box[2]), float(box[3])
    except (IndexError, ValueError):
        across = down = 0
    if not (0 < across < _WIDEST and 0 < down < _WIDEST):  # `nan` and `inf` are read as numbers too
        raise BadDrawing(
            "This drawing does not say how large it is.", "Save it with a width and a height, or with a viewBox."
        )
    return across * _UNITS["px"], down * _UNITS["px"]
