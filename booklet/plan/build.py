"""Pattern and benches -> the plan."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from booklet.plan.branches import branches_of
from booklet.plan.cautions import general_cautions, step_cautions
from booklet.plan.charts import charts_of
from booklet.plan.fabric import fabrics_of
from booklet.plan.film.takes import film_of
from booklet.plan.key import key_of
from booklet.plan.map import map_of
from booklet.plan.measures import pair
from booklet.plan.notions import notions_of
from booklet.plan.pieces import pieces_of
from booklet.plan.plan import Figure, Plan, PlanSection, PlanStep, PlanView
from booklet.plan.prose import plain
from booklet.plan.sections import figures_of
from booklet.plan.stages import Course
from booklet.plan.steps import art_of, sections_of
from booklet.plan.terms import terms_of
from booklet.plan.write import Writer, capital, one_line
from booklet.sew.view import sew_view

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.model.pattern import Pattern
    from booklet.plan.film.estimates import EdgeLength
    from booklet.plan.prose import Prose
    from booklet.sew.bench import Act, Bench


def make_plan(
    pattern: Pattern,
    benches: Sequence[Bench],
    view: str | None = None,
    draft: bool = False,
    drawn: frozenset[str] = frozenset(),
    length: EdgeLength = lambda _piece, _edge: None,
) -> Plan:
    """The plan of all views, or of the one with the letter `view`.

    benches: one a view, with all its optional steps; others are passed over, and a view without one is sewn here.
    drawn: the pieces that have an outline, by `same_name`; length: of an edge of theirs, for the film.
    Raises KeyError for an unknown view.
    """
    views = tuple(pattern.views) if view is None else (pattern.views[view].letter,)
    writer = Writer(pattern)
    whole = _one_a_view(pattern, benches)
    sections = _sections(pattern, whole, views, writer, drawn)
    planned_views = {letter: _view(pattern, letter, writer) for letter in views}
    about, before, choosing = (writer.prose(text) for text in (pattern.about, pattern.before, pattern.choosing))
    words = _words([about, before, choosing], sections)
    steps = [step for section in sections for step in section.items if isinstance(step, PlanStep)]
    folded = {key for key, piece in pattern.pieces.items() if any(edge.fold for edge in piece.edges.values())}
    return Plan(
        name=os.path.basename(os.path.realpath(pattern.folder)),
        title=one_line(pattern.name),
        studio=one_line(pattern.studio),
        edition=one_line(pattern.edition),
        about=about,
        draft=draft,
        view=view,
        views=list(planned_views.values()),
        sizes=tuple(one_line(size) for size in pattern.sizes),
        charts=charts_of(pattern, views, writer),
        choosing=choosing,
        fabrics=fabrics_of(pattern, views, writer),
        notions=notions_of(pattern, views, writer),
        tools=[capital(tool.value) for tool in pattern.tools],
        pieces=pieces_of(pattern, views),
        key=key_of((figure for step in steps for figure in step.figures), folded),
        terms=terms_of(pattern, views, words, _other_words(pattern, views, writer), writer),
        before=before,
        cautions=general_cautions(pattern, views, words, writer),
        sections=sections,
        allowance=pair(pattern.allowance, pattern.house),
        films=film_of(pattern, planned_views, writer, length),
        all_views=tuple(pattern.views),
        branches=branches_of(list(planned_views.values()), sections),
        map=map_of(pattern, [bench for bench in whole if bench.view.letter in views]),
    )


def _one_a_view(pattern: Pattern, benches: Sequence[Bench]) -> list[Bench]:
    """What a step shows depends on every view that sews it, also in a plan of one."""
    sewn = {bench.view.letter: bench for bench in benches if not bench.left_out}
    return [sewn.get(letter) or sew_view(pattern, view) for letter, view in pattern.views.items()]


def _view(pattern: Pattern, letter: str, writer: Writer) -> PlanView:
    view = pattern.views[letter]
    return PlanView(letter, one_line(view.name), writer.prose(view.about), art_of(view.figure))


def _sections(
    pattern: Pattern, benches: Sequence[Bench], views: tuple[str, ...], writer: Writer, drawn: frozenset[str]
) -> list[PlanSection]:
    """Figures and cautions are those of all views, so that a step has the same in every plan."""
    courses = [Course(bench) for bench in benches]
    acts: dict[str, list[Act]] = {}
    for course in sorted(courses, key=lambda course: course.bench.view.letter not in views):
        acts = course.acts | acts
    arts: dict[str, Figure] = {step.id: art for step in pattern.steps if (art := art_of(step.figure)) is not None}
    figures = figures_of(pattern, courses, arts, drawn)
    cautions = step_cautions(pattern, benches, writer)
    return sections_of(pattern, views, writer, acts, figures, cautions)


def _words(prose: Iterable[Prose], sections: Iterable[PlanSection]) -> str:
    """All that a reader of the plan reads, in small letters: in which terms and hazards are looked for."""
    texts = [plain(one) for one in prose]
    for section in sections:
        texts += [section.title, plain(section.intro)]
        for item in section.items:
            if isinstance(item, PlanStep):
                texts += [item.title, plain(item.text), plain(item.tip)]
    return "\n".join(texts).lower()


def _other_words(pattern: Pattern, views: tuple[str, ...], writer: Writer) -> str:
    """Of the steps that these views don't sew."""
    texts = [text for step in pattern.steps if not set(step.scope.views) & set(views)
             for text in (step.title, plain(writer.prose(step.text)), plain(writer.prose(step.tip)))]  # fmt: skip
    return "\n".join(texts).lower()
