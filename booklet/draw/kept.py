"""Drawings kept from one build to the next, each by what it shows: only what has changed is drawn anew."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from booklet import __version__
from booklet.draw.drawing import Drawing
from booklet.shape.store import STRANGE, got, hashed, put
from booklet.styles_folder import styles_folder

if TYPE_CHECKING:
    from booklet.plan.plan import Figure


class Kept:
    """The drawings of one pattern as its outlines are; `key`: their name, "" where it has none."""

    def __init__(self, key: str) -> None:
        self.name = hashed("drawings", __version__, key, *_hands())
        self.drawings: dict[str, Drawing | None] = {}
        self.asked: dict[str, Drawing | None] = {}
        try:
            self.drawings = {str(name): _drawing(row) for name, row in got(self.name).items()}
        except STRANGE:
            self.drawings = {}

    def named(self, figure: Figure) -> str:
        return hashed(repr(figure))

    def save(self) -> None:
        """Keeps what was asked for since, and no more."""
        if self.asked.keys() != self.drawings.keys():
            put(self.name, {name: _plain(drawing) for name, drawing in self.asked.items()})


def _hands() -> list[str]:
    """All that has a hand in a drawing: our code, and the styles. In a checkout both change."""
    package = Path(__file__).parents[1]
    files = [path for stage in ("draw", "shape") for path in sorted((package / stage).rglob("*.py"))]
    stats = [(path.name, path.stat()) for path in (*files, styles_folder() / "figures.toml", package / "length.py")]
    return [f"{name} {stat.st_size} {stat.st_mtime_ns}" for name, stat in stats]


def _plain(drawing: Drawing | None) -> list[Any] | None:
    """What JSON can hold: geometry gives numbers of its own kinds."""
    if drawing is None:
        return None
    sizes = [float(drawing.width_mm), float(drawing.height_mm), bool(drawing.wide)]
    return [drawing.name, drawing.svg, *sizes, drawing.shows, drawing.caption]


def _drawing(row: Any) -> Drawing | None:
    if row is None:
        return None
    name, svg, width, height, wide, shows, caption = row
    return Drawing(str(name), str(svg), float(width), float(height), bool(wide), str(shows), str(caption))
