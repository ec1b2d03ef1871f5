"""One stage of a section: layers, stitches, measures and names, in paper millimetres around the seam.

The seam line (or the fold, where there is one) stands at x 0, the uppermost layer of the garment at y 0.
"""

from __future__ import annotations

from typing import NamedTuple

from booklet.draw.cloth import Path, Point


class Layer(NamedTuple):
    """face: where the right side is, 1 left of travel, -1 right, 0 not told apart (or a turned-in finish).

    onward: whether the cloth goes on beyond its start and beyond its end; any other end is a cut edge.
    """

    path: Path
    cloth: str
    face: int
    onward: tuple[bool, bool] = (True, False)


class Stitch(NamedTuple):
    """A row of stitching, seen end on: a short stroke through the layers."""

    start: Point
    end: Point


class Loop(NamedTuple):
    """The thread of an overlock or zigzag round a cut edge: from the needle's x round the edge's x and back."""

    needle: float
    edge: float
    top: float
    bottom: float


class Measure(NamedTuple):
    """A distance along x between two features, with its words; above the layers or below them."""

    start: float
    end: float
    words: str
    above: bool = False


class Name(NamedTuple):
    """A layer's name. anchor: start | middle | end at x; y: of the layer that it stands above, below or beside (0)."""

    words: str
    x: float
    y: float
    anchor: str
    side: int


class Scene(NamedTuple):
    layers: tuple[Layer, ...]
    stitches: tuple[Stitch, ...] = ()
    loops: tuple[Loop, ...] = ()
    measures: tuple[Measure, ...] = ()
    names: tuple[Name, ...] = ()
    arrows: tuple[Path, ...] = ()
    ghosts: tuple[Path, ...] = ()

    def mirrored(self, across: int, down: int) -> Scene:
        """Turned over left to right (across -1) or top to bottom (down -1)."""
        anchors = {"start": "end", "end": "start", "middle": "middle"}

        def turned(point: Point) -> Point:
            return point[0] * across, point[1] * down

        return Scene(
            tuple(
                layer._replace(path=layer.path.mirrored(across, down), face=layer.face * across * down)
                for layer in self.layers
            ),
            tuple(Stitch(turned(stitch.start), turned(stitch.end)) for stitch in self.stitches),
            tuple(_turned_loop(loop, across, down) for loop in self.loops),
            tuple(_turned_measure(measure, across) for measure in self.measures),
            tuple(
                name._replace(
                    x=name.x * across, y=name.y * down, anchor=anchors[name.anchor] if across < 0 else name.anchor
                )
                for name in self.names
            ),
            tuple(path.mirrored(across, down) for path in self.arrows),
            tuple(path.mirrored(across, down) for path in self.ghosts),
        )


class Maker:
    """Gathers a scene."""

    def __init__(self) -> None:
        self.layers: list[Layer] = []
        self.stitches: list[Stitch] = []
        self.loops: list[Loop] = []
        self.measures: list[Measure] = []
        self.names: list[Name] = []
        self.arrows: list[Path] = []
        self.ghosts: list[Path] = []

    def scene(self) -> Scene:
        return Scene(
            tuple(self.layers),
            tuple(self.stitches),
            tuple(self.loops),
            tuple(self.measures),
            tuple(self.names),
            tuple(self.arrows),
            tuple(self.ghosts),
        )


def _turned_loop(loop: Loop, across: int, down: int) -> Loop:
    top, bottom = sorted((loop.top * down, loop.bottom * down))
    return Loop(loop.needle * across, loop.edge * across, top, bottom)


def _turned_measure(measure: Measure, across: int) -> Measure:
    start, end = sorted((measure.start * across, measure.end * across))
    return measure._replace(start=start, end=end)
