"""Reads a drawing back: only what stands in the SVG, nothing of what made it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

from fontTools.ttLib import TTFont

SVG = "{http://www.w3.org/2000/svg}"
FONT = Path(__file__).parents[2] / "styles" / "fonts" / "SourceSans3-Regular.ttf"

Box = tuple[float, float, float, float]


@dataclass
class Read:
    """One stage, in its own coordinates. cloth: the ends of each run of each layer; rows: x of upright stitches."""

    layers: list[list[tuple[float, float]]] = field(default_factory=list)
    stitches: list[tuple[float, float, float, float]] = field(default_factory=list)
    measures: list[tuple[float, float, float]] = field(default_factory=list)
    texts: list[tuple[str, Box]] = field(default_factory=list)
    shift: tuple[float, float] = (0.0, 0.0)

    @property
    def rows(self) -> list[float]:
        return [x0 for x0, _, x1, _ in self.stitches if x0 == x1]


def read(svg: str) -> tuple[list[Read], list[tuple[str, Box]]]:
    """The stages, and the numerals under them."""
    root = ElementTree.fromstring(svg)
    numerals = [text for group in root.findall(f"{SVG}g[@class='figure-words']") for text in _texts(group)]
    return [_stage(group) for group in root.findall(f"{SVG}g[@class='figure-stage']")], numerals


def _stage(group: ElementTree.Element) -> Read:
    found = Read()
    across, down = re.findall(r"-?[\d.]+", group.get("transform", ""))
    found.shift = float(across), float(down)
    for part in group:
        kind = part.get("class")
        if kind == "figure-cloth":
            found.layers += [
                path_points(path.get("d", "")) for path in part if "A" in path.get("d", "") or _is_layer(path)
            ]
        elif kind == "figure-stitching":
            found.stitches += [
                tuple(float(line.get(name, "")) for name in ("x1", "y1", "x2", "y2"))  # type: ignore[misc]
                for line in part.findall(f"{SVG}line")
            ]
        elif kind == "figure-measure":
            for path in part:
                x, y, end = re.match(r"M(-?[\d.]+) (-?[\d.]+)H(-?[\d.]+)", path.get("d", "")).groups()  # type: ignore[union-attr]
                found.measures.append((float(x), float(end), float(y)))
        elif kind == "figure-words":
            found.texts += _texts(part)
    return found


def _is_layer(path: ElementTree.Element) -> bool:
    return path.get("stroke-linejoin") == "round"


def path_points(data: str) -> list[tuple[float, float]]:
    """Every end of a run or an arc."""
    found = []
    for command, numbers in re.findall(r"([MLA])([^MLA]*)", data):
        values = [float(number) for number in numbers.split()]
        assert len(values) == {"M": 2, "L": 2, "A": 7}[command]
        found.append((values[-2], values[-1]))
    return found


def _texts(group: ElementTree.Element) -> list[tuple[str, Box]]:
    size = float(group.get("font-size", ""))
    found = []
    for text in group.findall(f"{SVG}text"):
        words = text.text or ""
        wide = advance(words) * size
        x, y = float(text.get("x", "")), float(text.get("y", ""))
        x -= {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
        found.append((words, (x, y - 0.70 * size, x + wide, y + 0.22 * size)))
    return found


@cache
def _font() -> tuple[dict[int, str], dict[str, tuple[int, int]], int]:
    font = TTFont(FONT)
    return font.getBestCmap(), font["hmtx"].metrics, font["head"].unitsPerEm


def advance(words: str) -> float:
    """In ems; every letter must be in the bundled type."""
    names, metrics, em = _font()
    return sum(metrics[names[ord(letter)]][0] for letter in words) / em


def meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
