"""The page beside the machine: one file that works from a phone's own storage, with no network."""

from __future__ import annotations

import base64
import json
from typing import TYPE_CHECKING, NamedTuple

from markupsafe import Markup

from booklet.draw.branches import draw_branches
from booklet.plan.plan import Art, Gap, PlanStep
from booklet.publish import tables, wording
from booklet.publish.booklet import _environment as environment
from booklet.publish.chapters.clips import from_time, how_to
from booklet.publish.chapters.span import clock
from booklet.publish.faces import script_hash, style_sheet
from booklet.publish.html import inline_html, prose_html, view_words
from booklet.styles_folder import styles_folder

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.draw.drawing import Drawing
    from booklet.plan.plan import Chart, Figure, Plan
    from booklet.publish.edition import Edition

NAME = "page"


class Row(NamedTuple):
    """A step, its narrow figures apart from its wide ones; or a line for the readers of one view that says which
    numbers are left out."""

    step: PlanStep | None
    beside: tuple[Markup, ...] = ()
    across: tuple[Markup, ...] = ()
    gap: str = ""
    views: tuple[str, ...] = ()


class PageSection(NamedTuple):
    title: str
    intro: Markup
    views: tuple[str, ...]
    rows: tuple[Row, ...]


class PageChart(NamedTuple):
    """A chart; `system` is inch or metric where the same chart stands in the other system too."""

    chart: Chart
    system: str


def files(edition: Edition) -> dict[str, bytes]:
    return {"page/index.html": page_html(edition).encode()}


def page_html(edition: Edition) -> str:
    plan = edition.plan
    letters = [view.letter for view in plan.views]
    anchors = {step.id: f"step-{step.number}" for step in plan.steps}
    script = (styles_folder() / "page.js").read_text(encoding="utf-8")
    return (
        environment()
        .get_template("page.html")
        .render(
            plan=plan,
            letters=letters if len(letters) > 1 else [],
            sections=list(_sections(edition, anchors)),
            charts=list(_charts(plan)),
            store=f"{edition.name}/{plan.edition}",
            prose=lambda prose: prose_html(prose, anchors),
            inline=lambda prose: inline_html(prose, anchors),
            notion_table=tables.notion_table(plan.notions, letters, anchors),
            pictures={
                view.letter: _picture(edition.drawings[view.figure], view.figure) for view in plan.views if view.figure
            },
            branches=_branches(plan),
            garment=_garment(edition),
            sheet=_inline(edition.fronts.sheet) if edition.fronts.sheet else None,
            piece_pictures={key: Markup("").join(map(_piece, each)) for key, each in edition.fronts.pictures.items()},
            key={kind: Markup(drawing.svg) for kind, drawing in edition.key.items()},
            tool_words=", ".join(plan.tools),
            css=Markup(style_sheet("page.css")),
            script=Markup(script),
            script_hash=script_hash(script),
            view_words=view_words,
            wording=wording,
            in_film=_in_film(plan),
            how_to=_how_to(edition),
        )
    )


def _in_film(plan: Plan) -> dict[int, tuple[str, str]]:
    """By the step's number: where in the film it is sewn, and the time as a clock shows it; only of what was filmed."""
    film = plan.films
    if film is None or not film.link:
        return {}
    return {
        timed.number: (from_time(film.link, timed.start), clock(int(timed.start * 1000)))
        for timed in film.times
        if timed.number is not None and timed.settled and timed.source != "planned"
    }


def _how_to(edition: Edition) -> Markup:
    """Data for search engines, of the view that is filmed; no sign in it ends the element that holds it."""
    film = edition.plan.films
    if film is None:
        return Markup("")
    filmed = film.times if any(timed.source != "planned" for timed in film.times) else ()
    data = how_to(edition.view_plan(film.view.letter), filmed, film.link if filmed else "")
    return Markup(json.dumps(data, ensure_ascii=False).replace("<", "\\u003c").replace(">", "\\u003e"))


def _sections(edition: Edition, anchors: dict[str, str]) -> Iterator[PageSection]:
    plan = edition.plan
    gaps = _gaps(edition)
    for index, section in enumerate(plan.sections):
        rows: list[Row] = []
        for item in section.items:
            if isinstance(item, PlanStep):
                rows += [Row(None, gap=gap, views=(letter,)) for letter, gap in gaps.pop((index, item.number), [])]
                beside, across = (tuple(_figures(edition, item, wide)) for wide in (False, True))
                rows.append(Row(item, beside, across, views=item.views))
        rows += [Row(None, gap=gap, views=(letter,)) for letter, gap in gaps.pop((index, 0), [])]
        views = tuple(view.letter for view in plan.views if any(view.letter in row.views for row in rows))
        yield PageSection(section.title, prose_html(section.intro, anchors), views, tuple(rows))


def _gaps(edition: Edition) -> dict[tuple[int, int], list[tuple[str, str]]]:
    """(section, number of the step that follows; 0 at its end) -> the lines of each view's plan that stand there."""
    found: dict[tuple[int, int], list[tuple[str, str]]] = {}
    if len(edition.plan.views) < 2:
        return found
    titles = {section.title: index for index, section in enumerate(edition.plan.sections)}
    for view in edition.plan.views:
        for section in edition.view_plan(view.letter).sections:
            for at, item in enumerate(section.items):
                if isinstance(item, Gap):
                    follow = next((after.number for after in section.items[at + 1 :] if isinstance(after, PlanStep)), 0)
                    found.setdefault((titles[section.title], follow), []).append((view.letter, item.says))
    return found


def _charts(plan: Plan) -> Iterator[PageChart]:
    for chart in plan.charts:
        twins = [other for other in plan.charts if (other.title, other.views) == (chart.title, chart.views)]
        system = {"in": "inch", "cm": "metric"}.get(chart.unit, "") if len(twins) > 1 else ""
        yield PageChart(chart, system)


def _figures(edition: Edition, step: PlanStep, wide: bool) -> Iterator[Markup]:
    for figure in step.figures:
        if figure not in edition.drawings or edition.drawings[figure].wide != wide:
            continue
        yield _picture(edition.drawings[figure], figure, f"step {step.number}")


def _branches(plan: Plan) -> Markup | None:
    """The views side by side, narrow; in sentences where there is nothing to draw."""
    if plan.branches is None:
        return None
    drawing = draw_branches(plan.branches, narrow=True)
    if drawing is None:
        return Markup("<p>{}</p>").format(" ".join(plan.branches.says))
    return _figure(drawing, Markup(drawing.svg[drawing.svg.index("<svg") :]), "narrow")


def _garment(edition: Edition) -> Markup | None:
    """The map, which moves under the thumb on a narrow screen; in sentences where a page of paper would not hold it."""
    if edition.plan.map is None:
        return None
    drawing = edition.fronts.map
    return _inline(drawing) if drawing else Markup("<p>{}</p>").format(" ".join(edition.plan.map.says))


def _inline(drawing: Drawing) -> Markup:
    return _figure(drawing, Markup(drawing.svg[drawing.svg.index("<svg") :]), "wide")


def _piece(drawing: Drawing) -> Markup:
    image = Markup(drawing.svg[drawing.svg.index("<svg") :])
    words = Markup("<span>{}</span>").format(drawing.caption) if drawing.caption else Markup("")
    return Markup('<span class="picture">{}{}</span>').format(image, words)


def _picture(drawing: Drawing, figure: Figure, where: str = "") -> Markup:
    """Our own drawings stand in the page itself, so that they use its type; a designer's stays a picture of its own."""
    if isinstance(figure, Art):
        data = base64.b64encode(drawing.svg.encode()).decode()
        image = Markup('<img src="data:image/svg+xml;base64,{}" alt="{}">').format(data, drawing.shows)
    else:
        image = Markup(drawing.svg[drawing.svg.index("<svg") :])
    return _figure(drawing, image, "wide" if drawing.wide else "narrow", where)


def _figure(drawing: Drawing, image: Markup, kind: str, where: str = "") -> Markup:
    caption = Markup("<figcaption>{}</figcaption>").format(drawing.caption) if drawing.caption else Markup("")
    if drawing.wide:
        image = Markup('<div class="scroll" role="region" tabindex="0" aria-label="{}">{}</div>').format(
            ", ".join(filter(None, (drawing.caption or drawing.shows, where))), image
        )
    # On paper all figures are of one scale; so they are here, whatever their width.
    return Markup('<figure class="{}" style="--mm: {:.1f}">{}{}</figure>').format(
        kind, drawing.width_mm, image, caption
    )
