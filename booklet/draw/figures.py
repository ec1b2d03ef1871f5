"""Every figure of a plan, drawn once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.kept import Kept
from booklet.draw.section import draw_section
from booklet.plan.plan import Section

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.draw.drawing import Drawing
    from booklet.plan.picture import StepFigure
    from booklet.plan.plan import Figure
    from booklet.shape.figure_size import FigureShapes


def draw_all(figures: Iterable[Section | StepFigure], shapes: FigureShapes | None) -> dict[Figure, Drawing]:
    """Equal requests share a drawing; the order is that of the requests. What can't be laid out has none."""
    kept = Kept(shapes.key if shapes is not None else "")
    drawings: dict[Figure, Drawing] = {}
    for figure in dict.fromkeys(figures):
        name = kept.named(figure)
        drawing = kept.drawings[name] if name in kept.drawings else _drawn(figure, shapes)
        kept.asked[name] = drawing
        if drawing is not None:
            drawings[figure] = drawing
    kept.save()
    return drawings


def _drawn(figure: Section | StepFigure, shapes: FigureShapes | None) -> Drawing | None:
    return draw_section(figure) if isinstance(figure, Section) else _picture(figure, shapes)


def _picture(figure: StepFigure, shapes: FigureShapes | None) -> Drawing | None:
    from booklet.draw.flat.picture import draw_picture

    return draw_picture(figure, shapes) if shapes is not None else None
