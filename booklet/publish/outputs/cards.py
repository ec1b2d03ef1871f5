"""Cards to lay over the film: each step's title, and its measures. Only the command `film` makes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.cards import card_png, card_svg, measures_card, title_card

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.draw.cards import Card
    from booklet.plan.plan import PlanStep
    from booklet.publish.edition import Edition

NAME = "cards"
# Pictures of pixels take longer than all other outputs together: they are made only when they are asked for.
ASKED = True


def files(edition: Edition) -> dict[str, bytes]:
    made: dict[str, bytes] = {}
    for name, card in cards(edition):
        made[f"film/cards/{name}.svg"] = card_svg(card).encode()
        made[f"film/cards/{name}.png"] = card_png(card)
    return made


def cards(edition: Edition) -> Iterator[tuple[str, Card]]:
    """A title for each step of the view that is filmed, and for each take of its own; the measures of a step's text."""
    film = edition.plan.films
    if film is None:
        return
    for step in edition.view_plan(film.view.letter).steps:
        name = f"step-{step.number:02d}"
        yield name, title_card(step.number, step.title)
        measures = measures_of(step)
        if measures:
            yield f"{name}-measures", measures_card(step.number, measures)
    titles = dict.fromkeys(shot.step_title for shot in film.shots if shot.step is None)
    for at, title in enumerate(titles, 1):
        yield f"take-{at:02d}", title_card(None, title)


def measures_of(step: PlanStep) -> tuple[str, ...]:
    """Each measure of its text once, in the order of the hands: `⅝ in (1.6 cm)`."""
    spans = [span for block in step.text for span in block.spans if span.measure is not None]
    spelled = (
        span.measure.first.typeset + (f" ({span.measure.other.typeset})" if span.measure.other else "")
        for span in spans
        if span.measure is not None
    )
    return tuple(dict.fromkeys(spelled))
