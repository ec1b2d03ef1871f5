"""Cards to lay over the film: titles, measures, and what a take shows beside. Only the command `film` makes them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.cards import card_png, card_svg, title_card, words_card

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.draw.cards import Card
    from booklet.plan.plan import Note, PlanStep
    from booklet.plan.prose import Span
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
    """Of the view that is filmed: each step's title and the measures of its text; the title of each take of its own;
    what a take puts on the screen. Takes are numbered as in the shot list. A chart is too much for a card."""
    film = edition.plan.films
    if film is None:
        return
    for step in edition.view_plan(film.view.letter).steps:
        name = f"step-{step.number:02d}"
        yield name, title_card(step.number, step.title)
        measures = measures_of(step)
        if measures:
            yield f"{name}-measures", words_card(step.number, measures)
    for shot in film.shots:
        name = f"take-{shot.take:02d}"
        if shot.step is None and shot.step_title:
            yield name, title_card(None, shot.step_title)
        notes = [lines for note in shot.notes if note.kind != "chart" and (lines := _lines(note))]
        for at, lines in enumerate(notes, 1):
            yield f"{name}-note{f'-{at}' if len(notes) > 1 else ''}", words_card(shot.step, lines)


def measures_of(step: PlanStep) -> tuple[str, ...]:
    """Each measure of its text once, in the order of the hands: `⅝ in (1.6 cm)`."""
    spans = [span for block in step.text for span in block.spans if span.measure is not None]
    return tuple(dict.fromkeys(_typeset(span) for span in spans))


def _lines(note: Note) -> tuple[str, ...]:
    """With its measures as the booklet sets them; how much of a material, each width on a line of its own."""
    words = " ".join("".join(_typeset(span) for span in block.spans).strip() for block in note.prose).strip()
    return tuple(filter(None, words.split("; ") if note.kind == "material" else [words]))


def _typeset(span: Span) -> str:
    """Both systems stay on one line."""
    if span.measure is None:
        return span.text
    other = span.measure.other
    return span.measure.first.typeset + (f"\u00a0({other.typeset})" if other else "")
