"""A plan and its drawings -> the printed booklet as one HTML document, and the files that it reads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from booklet.draw.drawing import Drawing
from booklet.plan.plan import Art, Figure, Gap, Plan, PlanSection, PlanStep
from booklet.plan.prose import Prose
from booklet.publish import tables, wording
from booklet.publish.fronts import Fronts
from booklet.publish.html import inline_html, measure_html, prose_html, view_words
from booklet.styles_folder import styles_folder

PAPERS = ("letter", "a4")
FONTS = ("SourceSans3-Regular.ttf", "SourceSans3-It.ttf", "SourceSans3-Semibold.ttf", "SourceSans3-SemiboldIt.ttf")

# Figures stand beside a step's words, one under the other, or below them, two in a row: as many beside as make the step
# lowest. Each row below must save so much, in millimetres. Our choice: what stands beside the words is found at once.
SAVES = 10.0

# A step that is higher than this, in millimetres, may go on over a page, below a row of its figures; a lower one never
# does. Our choice: not quite half of the page, so that no page ends half empty.
BREAKS_FROM = 105.0
# What words take, about: a line has so many letters, and is so high; as much air is between figures and over captions.
_LETTERS, _LINE, _FIGURE_AIR = 46, 5.1, 9.0

_TEMPLATES = Path(__file__).with_name("templates")


# What a booklet without drawings before its steps has.
NO_FRONTS = Fronts()


class SetStep(NamedTuple):
    """A step as the page sets it: its drawings apart by the column that they take, `pairs` two in a row below it;
    `long`: it may go on over a page, between the rows of its figures."""

    step: PlanStep
    anchor: str
    only: str
    beside: tuple[Drawing, ...]
    across: tuple[Drawing, ...]
    pairs: tuple[tuple[Drawing, ...], ...] = ()
    long: bool = False


class SetSection(NamedTuple):
    title: str
    anchor: str
    intro: Prose
    steps: str
    items: tuple[SetStep | Gap, ...]


def booklet_html(
    plan: Plan,
    drawings: Mapping[Figure, Drawing],
    key: Mapping[str, Drawing],
    paper: str,
    fronts: Fronts = NO_FRONTS,
) -> str:
    """The booklet of all views or of one. It names its files as `booklet_assets` does.

    drawings: one for each figure of the steps and views; key: one for each kind in the plan's key; paper: of PAPERS;
    fronts: what is drawn before the steps, of the same plan.
    """
    letters = _letters(plan)
    anchors = {step.id: _step_anchor(step) for step in plan.steps}
    environment = _environment()
    template = environment.get_template("booklet.html")
    return template.render(
        plan=plan,
        drawings=drawings,
        key=key,
        letters=letters,
        fronts=fronts,
        sections=[_section(number, section, letters, drawings) for number, section in enumerate(plan.sections, 1)],
        view_drawings=[(view, _drawing(view.figure, drawings)) for view in plan.views],
        prose=lambda prose: prose_html(prose, anchors),
        inline=lambda prose: inline_html(prose, anchors),
        piece_pictures={key: Markup("").join(map(_piece_picture, each)) for key, each in fronts.pictures.items()},
        notion_table=tables.notion_table(plan.notions, [view.letter for view in plan.views], anchors),
        css=Markup(_css(paper)),
    )


def booklet_assets(
    drawings: Mapping[Figure, Drawing], key: Mapping[str, Drawing], fronts: Fronts = NO_FRONTS
) -> dict[str, bytes]:
    """Every file that the booklet's HTML names: the drawings and the type."""
    figures = {drawing.name: drawing.svg.encode() for drawing in (*drawings.values(), *key.values(), *fronts.every)}
    return figures | _fonts()


@cache
def _fonts() -> dict[str, bytes]:
    return {f"fonts/{name}": (styles_folder() / "fonts" / name).read_bytes() for name in FONTS}


@cache
def _css(paper: str) -> str:
    names = ("type.css", "booklet.css", f"{paper}.css")
    return "\n".join((styles_folder() / name).read_text(encoding="utf-8") for name in names)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals.update(
        wording=wording,
        measure=measure_html,
        marks=tables.marks_html,
        view_words=view_words,
        chart_tables=tables.chart_tables,
        fabric_tables=tables.fabric_tables,
        piece_table=tables.piece_table,
    )
    environment.filters["address"] = quote
    environment.filters["upper_first"] = lambda words: words[:1].upper() + words[1:]
    environment.filters["lower_first"] = lambda words: words[:1].lower() + words[1:]
    return environment


def _piece_picture(drawing: Drawing) -> Markup:
    words = Markup("<span>{}</span>").format(drawing.caption) if drawing.caption else Markup("")
    return Markup('<span class="picture"><img src="{}" alt="{}" style="width: {:.2f}mm">{}</span>').format(
        quote(drawing.name), drawing.shows, drawing.width_mm, words
    )


def _letters(plan: Plan) -> tuple[str, ...]:
    """The views among which a reader has to choose: none where there is but one."""
    return tuple(view.letter for view in plan.views) if plan.view is None and len(plan.views) > 1 else ()


def _section(
    number: int, section: PlanSection, letters: tuple[str, ...], drawings: Mapping[Figure, Drawing]
) -> SetSection:
    numbers = [item.number for item in section.items if isinstance(item, PlanStep)]
    items = tuple(item if isinstance(item, Gap) else _step(item, letters, drawings) for item in section.items)
    return SetSection(section.title, f"section-{number}", section.intro, wording.step_range(numbers), items)


def _step(step: PlanStep, letters: tuple[str, ...], drawings: Mapping[Figure, Drawing]) -> SetStep:
    figures = [drawings[figure] for figure in step.figures if figure in drawings]
    narrow = [figure for figure in figures if not figure.wide]
    beside, pairs = min(
        (_parted(narrow, number) for number in range(len(narrow), -1, -1)),
        key=lambda parted: round(_height(step, *parted) + SAVES * len(parted[1])),
    )
    across = tuple(figure for figure in figures if figure.wide)
    rows = (*pairs, *((figure,) for figure in across))
    return SetStep(
        step,
        _step_anchor(step),
        "" if step.everyone or not letters else f"{view_words(step.views)} only",
        tuple(beside),
        across,
        pairs,
        len(rows) + len(beside) > 1 and _height(step, beside, rows) > BREAKS_FROM,
    )


def _parted(figures: Sequence[Drawing], number: int) -> tuple[Sequence[Drawing], tuple[tuple[Drawing, ...], ...]]:
    """So many beside the words, the others in pairs below them."""
    below = figures[number:]
    return figures[:number], tuple(tuple(below[at : at + 2]) for at in range(0, len(below), 2))


def _height(step: PlanStep, beside: Sequence[Drawing], rows: Sequence[Sequence[Drawing]]) -> float:
    """About how high a step comes out, in millimetres."""
    prose = (*step.text, *step.tip, *(block for caution in step.cautions for block in caution.says))
    lines = 2 + sum(1 + sum(len(span.text) for span in block.spans) // _LETTERS for block in prose)
    first = max(lines * _LINE, sum(figure.height_mm + _FIGURE_AIR for figure in beside))
    return first + sum(max(figure.height_mm for figure in row) + _FIGURE_AIR for row in rows)


def _step_anchor(step: PlanStep) -> str:
    return f"step-{step.number}"


def _drawing(figure: Art | None, drawings: Mapping[Figure, Drawing]) -> Drawing | None:
    return drawings[figure] if figure is not None else None
