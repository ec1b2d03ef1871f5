"""A draft of the video's description: what is made, of what, with what, when each step comes, and what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from booklet.plan.fabric import amounts_in_words
from booklet.plan.notions import NEEDED, NONE
from booklet.plan.prose import plain
from booklet.plan.write import capital
from booklet.publish import wording
from booklet.publish.chapters.description import description
from booklet.publish.chapters.span import is_planned, spans

if TYPE_CHECKING:
    from booklet.plan.plan import FilmPlan, Plan
    from booklet.plan.prose import Prose


def draft(plan: Plan, film: FilmPlan) -> str:
    """plan: of the view that is filmed. Angle brackets are not taken in descriptions (from memory)."""
    lines = "\n".join(_lines(plan, film)) + "\n"
    return lines.replace("<", "‹").replace(">", "›")


def _lines(plan: Plan, film: FilmPlan) -> Iterator[str]:
    yield f"{plan.title} by {plan.studio}: {film.view.name}, view {film.view.letter}"
    yield from _paragraphs(film.view.about or plan.about)
    yield from _head("You need")
    for fabric in plan.fabrics:
        yield f"{fabric.name}: {'; '.join(amounts_in_words(fabric))}"
    for notion in plan.notions:
        many = plain(notion.by_view.get(film.view.letter, ()))
        if many != NONE:
            amount = f": {many}" if many and many != NEEDED else ""
            note = " ".join(plain(notion.note).split())
            yield f"{plain(notion.item)}{amount}{f'. {note}' if note else ''}"
    if plan.tools:
        yield from _head("Tools")
        yield from (capital(tool) for tool in plan.tools)
    yield from _head("Chapters (planned times, not yet those of the film)" if is_planned(film) else "Chapters")
    yield description(spans(film)).rstrip("\n")
    if left_out := _not_filmed(plan, film):
        yield from _head("In the booklet and not in the film")
        yield from left_out
    if plan.cautions:
        yield from _head("Take care")
        yield wording.MAKERS_FIRST
        for caution in plan.cautions:
            yield f"{caution.hazard} {plain(caution.says)}"
    yield ""
    yield f"The step numbers are those of the booklet, edition {plan.edition}."


def _not_filmed(plan: Plan, film: FilmPlan) -> list[str]:
    """Where the film is recorded, the steps of the view that it leaves out; an optional one may be."""
    if is_planned(film):
        return []
    filmed = {timed.number for timed in film.times}
    return [
        f"Step {step.number}: {step.title}" for step in plan.steps if step.number not in filmed and not step.optional
    ]


def _head(words: str) -> Iterator[str]:
    yield ""
    yield words


def _paragraphs(prose: Prose) -> Iterator[str]:
    for block in plain(prose).split("\n"):
        if block.strip():
            yield ""
            yield block
