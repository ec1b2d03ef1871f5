"""A finished drawing, whoever made it."""

from __future__ import annotations

from typing import NamedTuple


class Drawing(NamedTuple):
    """svg: the whole document as text, sized in millimetres; name: a file name that equal drawings share;
    wide: whether it wants both columns of the step; shows: alternative text; caption: a few words under it."""

    name: str
    svg: str
    width_mm: float
    height_mm: float
    wide: bool
    shows: str
    caption: str
