"""A request for a step's figure becomes a drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.draw import svg
from booklet.draw.drawing import Drawing
from booklet.draw.flat.ink import ink_patch, ink_sheet, ink_stroke
from booklet.draw.flat.labels import ink_labels, labels_for, widest_measure
from booklet.draw.flat.marks import Bench, Marked, marked
from booklet.draw.flat.paper import paper_for
from booklet.draw.flat.sheet import sheets
from booklet.draw.flat.spread import CantLay, spread_out
from booklet.draw.ink import millimetres
from booklet.draw.section import named

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import StepFigure
    from booklet.shape.shapes import Shapes

# The scale with which marks are made before the figure's own is known. Our choice: a tenth of life size.
FIRST_SCALE = 0.1


def draw_picture(figure: StepFigure, shapes: Shapes) -> Drawing | None:
    """The figure, 62 mm wide at most; None where a piece has no outline."""
    try:
        spread = spread_out(figure, shapes)
    except CantLay:
        return None
    places = {figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    made = sheets(spread, figure.marks, places)
    by_number = {number: made[at] for number, at in places.items()}
    guess = [marked(mark, Bench(by_number, FIRST_SCALE)) for mark in figure.marks]
    work = [line for one in guess for line in one.work]
    paper = paper_for([sheet.area for sheet in made], work, widest_measure(guess))
    done = [marked(mark, Bench(by_number, paper.scale)) for mark in figure.marks]
    return _drawn(figure, made, done, paper)


def _drawn(figure: StepFigure, made: list[Sheet], done: list[Marked], paper: Any) -> Drawing:
    margin = millimetres("pieces", "margin")
    labels, room = labels_for(made, done, paper)
    left, top, right, bottom = room
    width, height = paper.width + left + right + 2 * margin, paper.height + top + bottom + 2 * margin
    drawing = svg.document(width, height, figure.shows)
    into = drawing.g(transform=f"translate({svg.number(margin + left)} {svg.number(margin + top)})")
    for sheet in made:
        ink_sheet(drawing, into, sheet, made, paper)
        for mark, one in zip(figure.marks, done, strict=True):
            if figure.cloths[mark.cloth] is sheet.lying.cloth or figure.cloths[mark.cloth] == sheet.lying.cloth:
                for patch in one.patches:
                    ink_patch(drawing, into, patch, paper)
    for one in done:
        for stroke in one.strokes:
            ink_stroke(drawing, into, stroke, paper)
    ink_labels(drawing, into, labels)
    drawing.add(into)
    text = drawing.tostring()
    name = named("-".join(dict.fromkeys(mark.kind for mark in figure.marks)), text)
    return Drawing(name, text, round(width, 2), round(height, 2), False, figure.shows, figure.caption)
