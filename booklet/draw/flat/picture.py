"""A request for a step's figure becomes a drawing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw import svg
from booklet.draw.drawing import Drawing
from booklet.draw.flat.glass import glass_for, glass_paper, ink_glass
from booklet.draw.flat.ink import ink_view
from booklet.draw.flat.labels import ink_labels, labels_for, no_hatch, widest
from booklet.draw.flat.lift import lifted
from booklet.draw.flat.marks import marked
from booklet.draw.flat.paper import paper_for
from booklet.draw.flat.sheet import sheets
from booklet.draw.flat.spread import CantLay, spread_out
from booklet.draw.flat.strokes import Bench
from booklet.draw.flat.view import NEAR, view
from booklet.draw.ink import millimetres
from booklet.draw.section import named

if TYPE_CHECKING:
    from booklet.draw.flat.glass import Glass
    from booklet.draw.flat.labels import Words
    from booklet.draw.flat.sheet import Sheet
    from booklet.draw.flat.view import View
    from booklet.plan.picture import StepFigure
    from booklet.shape.figure_size import Outlined

# The scale with which marks are made before the figure's own is known. Our choice: a tenth of life size.
FIRST_SCALE = 0.1
# How much of a piece may its own copy cover that lies beside it, as a share? Our choice: a curved seam's sliver.
COVERED = 0.05


class Composed(NamedTuple):
    """A figure on paper, its words placed. ink: every line of it; wide: across both columns; glass: an inset and what
    is seen in it."""

    view: View
    ink: Any
    words: Words
    wide: bool
    glass: tuple[Glass, View] | None


def draw_picture(figure: StepFigure, shapes: Outlined) -> Drawing | None:
    """The figure, 62 mm wide at most, or 147 mm across both columns; None where a piece has no outline, or can't lie
    as asked."""
    try:
        spread = spread_out(figure, shapes)
    except CantLay:
        return None
    places = {figure.cloths.index(one.cloth): at for at, one in enumerate(spread.lying)}
    made = sheets(spread, figure.marks, places)
    if _covers_its_copy(made, places):
        return None
    return _drawn(figure, _composed(figure, made, places))


def _covers_its_copy(made: list[Sheet], places: dict[int, int]) -> bool:
    """Whether two copies of a piece, opened out beside each other, lie on one another: along a hollow edge, such as a
    crotch, cloth does not lie flat, and a figure of it would say what is not so."""
    for one in made:
        for meeting in one.lying.cloth.meets if one.lying.cloth.how == "opened" else ():
            other = made[places[meeting.other]]
            if other.lying.cloth.piece == one.lying.cloth.piece:
                both = one.area.intersection(other.area).area
                if both > COVERED * min(one.area.area, other.area.area):
                    return True
    return False


def _composed(figure: StepFigure, made: list[Sheet], places: dict[int, int]) -> Composed:
    """At the largest scale at which the words find their places."""
    by_number = {number: made[at] for number, at in places.items()}
    guess = [marked(mark, Bench(by_number, FIRST_SCALE, figure.marks)) for mark in figure.marks]
    work = [line for one in guess for line in one.work]
    several = len({sheet.lying.together for sheet in made}) > 1
    on = [places[mark.cloth] for mark in figure.marks]
    hand = _in_hand(figure, made, on)
    room = 0.0
    while True:
        paper = paper_for([sheet.area for sheet in made], work, room, several)
        wide = paper.width > millimetres("pieces", "width")
        most = millimetres("pieces", "wide" if wide else "width")
        done = [marked(mark, Bench(by_number, paper.scale, figure.marks)) for mark in figure.marks]
        up = lifted(made, done, paper)
        laid = made if up is None else [up.sheet if at == up.at else sheet for at, sheet in enumerate(made)]
        drawn, drawn_on = (done, on) if up is None else ([*done, up.flap], [*on, up.at])
        seen = view(laid, hand, drawn, drawn_on, paper)
        ink = seen.ink()
        glass = glass_for(figure.marks, [made[at] for at in on], done, seen, ink, most)
        words = labels_for(seen, ink, done, glass.taken() if glass else (), most)
        if words.complete or room:
            break
        room = widest(seen, done)
    if glass is None:
        return Composed(seen, ink, words, wide, None)
    near = glass_paper(glass, paper)
    close = [marked(mark, Bench(by_number, near.scale, figure.marks)) for mark in figure.marks]
    return Composed(seen, ink, words, wide, (glass, view(made, hand, close, on, near, NEAR * near.scale / paper.scale)))


def _in_hand(figure: StepFigure, made: list[Sheet], on: list[int]) -> set[int]:
    """The cloths to which something is done, and what was brought to them."""
    goals = {at for at, sheet in enumerate(made) for mark in figure.marks if sheet.lying.cloth == _other(figure, mark)}
    return (set(on) | goals) or set(range(len(made)))


def _other(figure: StepFigure, mark: Any) -> Any:
    return figure.cloths[mark.other] if 0 <= mark.other < len(figure.cloths) else None


def _drawn(figure: StepFigure, composed: Composed) -> Drawing:
    margin = millimetres("pieces", "margin")
    left, top, right, bottom = _bounds(composed)
    width, height = right - left + 2 * margin, bottom - top + 2 * margin
    drawing = svg.document(width, height, figure.shows)
    into = drawing.g(transform=f"translate({svg.number(margin - left)} {svg.number(margin - top)})")
    ink_view(drawing, into, composed.view, no_hatch(composed.words))
    if composed.glass is not None:
        ink_glass(drawing, into, *composed.glass)
    ink_labels(drawing, into, composed.words)
    drawing.add(into)
    text = drawing.tostring()
    name = named("-".join(dict.fromkeys(mark.kind for mark in figure.marks)), text)
    return Drawing(name, text, round(width, 2), round(height, 2), composed.wide, figure.shows, figure.caption)


def _bounds(composed: Composed) -> tuple[float, float, float, float]:
    """What the figure takes on paper, its words with it."""
    boxes = [seen.area.bounds for seen in composed.view.cloths if not seen.area.is_empty]
    boxes += [composed.ink.bounds, *(label.box for label in composed.words.labels)]
    if composed.glass is not None:
        boxes += composed.glass[0].bounds()
    return (min(b[0] for b in boxes), min(b[1] for b in boxes), max(b[2] for b in boxes), max(b[3] for b in boxes))
