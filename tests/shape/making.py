"""Small patterns with outlines, for the tests of this folder."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

import ezdxf.filemanagement

from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern
from booklet.read.faults import Faults
from booklet.read.folder import read_folder
from booklet.shape.course import Course, length
from booklet.shape.outline import Outline
from booklet.shape.read_dxf import read_dxf

VIEWS = "views: {A: {name: Vest}}\n"
HEAD = """\
pattern: Drawn Vest
studio: Test Studio
edition: "1"
units: metric
seam allowance: 1.5 cm
materials: {self: {name: Cloth, kind: woven}}
"""


def pattern_in(folder: Path, body: str, files: dict[str, str | bytes] | None = None) -> Pattern:
    """A pattern of metric measures; `body` has its sizes, outlines and pieces."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in (files or {}).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data if isinstance(data, bytes) else data.encode())
    (folder / "pattern.yaml").write_text(HEAD + ("" if "views:" in body else VIEWS) + body, encoding="utf-8")
    faults = Faults()
    pattern = build_pattern(read_folder(folder, faults), faults)
    assert pattern is not None
    assert faults.findings == []
    return pattern


def dxf(draw: Callable[[Any], None], version: str = "R2010", units: int = 4) -> bytes:
    """A document as a file; `draw` adds to it. units: its $INSUNITS."""
    document = ezdxf.filemanagement.new(version)
    document.header["$INSUNITS"] = units
    draw(document)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode("utf-8")


def block(document: Any, name: str, texts: Iterable[str] = ()) -> Any:
    """A new block with texts on layer 1, placed once in the drawing."""
    made = document.blocks.new(name)
    for text in texts:
        made.add_text(text, dxfattribs={"layer": "1"})
    document.modelspace().add_blockref(name, (0, 0))
    return made


def one_outline(draw: Callable[[Any], None]) -> Outline:
    """Of a block `piece` that `draw` fills."""
    file = read_dxf(dxf(lambda document: draw(block(document, "piece"))))
    assert file.bad == ()
    (outline,) = file.outlines
    return outline


def long(course: Course, tolerance: float = 1e-4) -> float:
    """Its length, flattened much finer than the program does."""
    return length(course.points(tolerance))


def svg(body: str, across: float = 1000, down: float = 1000) -> str:
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across}mm" height="{down}mm" viewBox="0 0 {across} {down}">\n'
        f"{body}\n</svg>\n"
    )
