"""The designer's own drawing, made ready for the page."""

from __future__ import annotations

import os
from hashlib import sha256
from typing import TYPE_CHECKING

from booklet.draw.drawing import Drawing
from booklet.read.drawing import read_drawing

if TYPE_CHECKING:
    from booklet.plan.plan import Art

# Wider than the right column of a step (look.md: 62 mm): then it stands across both.
_COLUMN_MM = 62.0
_ACROSS_MM = 147.0


def art_drawing(folder: str, art: Art) -> Drawing:
    """At its own size, or as large as its place allows."""
    file = read_drawing(os.path.join(folder, art.file))
    wide = file.width_mm > _COLUMN_MM * 1.2
    room = _ACROSS_MM if wide else _COLUMN_MM
    scale = min(1.0, room / file.width_mm)
    name = f"art-{sha256(file.svg.encode()).hexdigest()[:12]}.svg"
    return Drawing(name, file.svg, file.width_mm * scale, file.height_mm * scale, wide, art.shows, "")
