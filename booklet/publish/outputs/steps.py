"""The step list of each view, for the writer and the editor: Markdown, and plain text."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from booklet.draw.words import caption
from booklet.plan.picture import StepFigure
from booklet.plan.plan import Art, Gap, PlanStep
from booklet.plan.prose import Block, Prose, Span
from booklet.publish import text, wording

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from booklet.plan.plan import Figure, Plan
    from booklet.publish.edition import Edition

NAME = "steps"
_INDENT = "    "


def files(edition: Edition) -> dict[str, bytes]:
    """`steps/B.md` and `steps/B.txt`, and so on for every view. The figures are pictures in Markdown, words in text."""
    pictures = {figure: f"../{name}" for figure, name in edition.figure_files.items()}
    made: dict[str, bytes] = {}
    for letter in edition.pattern.views:
        plan = edition.view_plan(letter)
        name = f"steps/{text.file_word(letter)}"
        made[f"{name}.md"] = markdown_list(plan, pictures).encode()
        made[f"{name}.txt"] = text_list(plan).encode()
    return made


def markdown_list(plan: Plan, pictures: Mapping[Figure, str] = MappingProxyType({})) -> str:
    """pictures: the address of each figure; one that has none is told in words."""
    return "\n\n".join(_markdown(plan, pictures)) + "\n"


def text_list(plan: Plan) -> str:
    return "\n".join(_plain(plan)) + "\n"


def _heading(plan: Plan) -> str:
    (view,) = plan.views
    return f"View {view.letter}: {view.name}"


def _preface(plan: Plan) -> Iterator[Prose]:
    yield _said(f"{plan.studio}. Edition {plan.edition}.")
    if plan.draft:
        yield _said(wording.DRAFT_NOTE)
    allowance = Span("measure", _both(plan), plan.allowance)
    yield (
        Block(
            "paragraph",
            (Span("text", "Seams are "), allowance, Span("text", " wide unless a step says otherwise.")),
        ),
    )
    if len(plan.all_views) > 1:
        yield _said(wording.LEFT_OUT)


def _both(plan: Plan) -> str:
    first, other = plan.allowance
    return first.plain + (f" ({other.plain})" if other else "")


def _said(words: str) -> Prose:
    return (Block("paragraph", (Span("text", words),)),)


def _markdown(plan: Plan, pictures: Mapping[Figure, str]) -> Iterator[str]:
    yield f"# {text.escaped(plan.title)}"
    yield f"## {text.escaped(_heading(plan))}"
    for words in _preface(plan):
        yield text.markdown(words)
    if plan.cautions:
        yield "## Take care"
        yield text.markdown(_said(wording.MAKERS_FIRST))
        for caution in plan.cautions:
            yield f"**{text.escaped(caution.hazard)}** {text.markdown_line(caution.says)}"
    for section in plan.sections:
        yield f"## {text.escaped(section.title)}"
        if section.intro:
            yield text.markdown(section.intro)
        for item in section.items:
            yield from _marked_gap(item) if isinstance(item, Gap) else _marked_step(item, pictures)


def _marked_gap(gap: Gap) -> Iterator[str]:
    yield f"({text.escaped(gap.says)})"


def _marked_step(step: PlanStep, pictures: Mapping[Figure, str]) -> Iterator[str]:
    yield f"### {step.number}. {text.escaped(step.title)}"
    if step.optional:
        yield "Optional."
    if step.text:
        yield text.markdown(step.text)
    if step.codes:
        yield f"*Codes.* {text.escaped('; '.join(step.codes))}."
    for caution in step.cautions:
        yield f"**{text.escaped(caution.hazard)}** {text.markdown_line(caution.says)}"
    if step.tip:
        yield f"*Tip.* {text.markdown_line(step.tip)}"
    for figure in step.figures:
        words = text.escaped(_figure(figure))
        yield f"![{words}]({pictures[figure]})" if figure in pictures else f"*Figure.* {words}"


def _plain(plan: Plan) -> Iterator[str]:
    heading = _heading(plan)
    yield from text.wrap(plan.title)
    yield from text.wrap(heading)
    yield "=" * min(max(len(plan.title), len(heading)), text.WIDTH)
    for words in _preface(plan):
        yield ""
        yield from text.lines(words)
    if plan.cautions:
        yield from _underlined("Take care")
        yield ""
        yield from text.wrap(wording.MAKERS_FIRST)
        for caution in plan.cautions:
            yield ""
            yield from _led(caution.hazard, caution.says, "")
    for section in plan.sections:
        yield from _underlined(section.title)
        if section.intro:
            yield ""
            yield from text.lines(section.intro)
        for item in section.items:
            yield ""
            yield from text.wrap(f"({item.says})", _INDENT, _INDENT) if isinstance(item, Gap) else _plain_step(item)


def _underlined(title: str) -> Iterator[str]:
    yield from ("", "")
    yield from text.wrap(title)
    yield "-" * min(len(title), text.WIDTH)


def _plain_step(step: PlanStep) -> Iterator[str]:
    number = f"{step.number:>2}. "
    yield from text.wrap(f"{step.title} (optional)" if step.optional else step.title, number, " " * len(number))
    if step.text:
        yield ""
        yield from text.lines(step.text, _INDENT)
    for caution in step.cautions:
        yield ""
        yield from _led(caution.hazard, caution.says, _INDENT)
    if step.tip:
        yield ""
        yield from _led("Tip.", step.tip, _INDENT)
    for figure in step.figures:
        yield ""
        yield from text.wrap(f"Figure. {text.tied_words(_figure(figure))}", _INDENT, _INDENT)


def _led(lead: str, says: Prose, indent: str) -> Iterator[str]:
    """A lead word and its sentences in one paragraph."""
    words = " ".join(text.tied(block.spans) for block in says)
    yield from text.wrap(f"{lead} {words}", indent, indent)


def _figure(figure: Figure) -> str:
    """As under the drawing, with a full stop."""
    if isinstance(figure, Art):
        return figure.shows or figure.file
    if isinstance(figure, StepFigure):
        return figure.shows
    return f"{caption(figure)}."
