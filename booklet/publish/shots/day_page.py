"""The page of the day: takes in the order of filming with boxes to tick and figures, to print or to hold."""

from __future__ import annotations

import base64
from typing import TYPE_CHECKING

from markupsafe import Markup

from booklet.plan.plan import Art
from booklet.publish import wording
from booklet.publish.booklet import _environment as environment
from booklet.publish.faces import style_sheet
from booklet.publish.html import inline_html
from booklet.publish.shots.rows import blocks, in_filming_order, in_sewing_order, told_minutes

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.plan.film.filming import Choice, Filming
    from booklet.plan.plan import FilmPlan, PlanStep
    from booklet.publish.edition import Edition

_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def day_html(edition: Edition, film: FilmPlan, filming: Filming) -> str:
    plan = edition.plan
    steps = {step.number: step for step in plan.steps}
    return (
        environment()
        .get_template("shots.html")
        .render(
            plan=plan,
            film=film,
            filming=filming,
            planned=round(sum(shot.minutes for shot in film.shots)),
            blocks=blocks(in_filming_order(film, filming)),
            rows=in_sewing_order(film, filming),
            figures={number: _figure(edition, step) for number, step in steps.items()},
            cautions=plan.cautions,
            inline=lambda prose: inline_html(prose, {}),
            minutes=told_minutes,
            choices=_choices(filming.choices),
            css=Markup(style_sheet("shots.css")),
            wording=wording,
        )
    )


def _choices(choices: Sequence[Choice]) -> str:
    """`Without a half-made sample there are 24 changes of set-up, with one 16, with two 12.`"""
    first, *others = choices
    words = [f"with {_NUMBERS[choice.samples - 1]} {choice.changes}" for choice in others]
    changes = (
        f"there {'is' if first.changes == 1 else 'are'} {first.changes} change{'s' * (first.changes != 1)} of set-up"
    )
    return f"{', '.join([f'Without a half-made sample {changes}', *words])}."


def _figure(edition: Edition, step: PlanStep) -> Markup | None:
    """The first of the step that is drawn, in the page itself; a designer's own stays a picture of its own."""
    figure = next((figure for figure in step.figures if figure in edition.drawings), None)
    if figure is None:
        return None
    drawing = edition.drawings[figure]
    if isinstance(figure, Art):
        data = base64.b64encode(drawing.svg.encode()).decode()
        return Markup('<img src="data:image/svg+xml;base64,{}" alt="{}">').format(data, drawing.shows)
    return Markup(drawing.svg[drawing.svg.index("<svg") :])
