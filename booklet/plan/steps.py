"""Numbered steps in their sections.

A step has one number in a pattern; a plan of one view says which numbers it leaves out, and why.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from booklet.plan.naming import listed
from booklet.plan.plan import Art, Caution, Figure, Gap, PlanSection, PlanStep
from booklet.plan.words import work_prose
from booklet.plan.write import Writer, one_line

if TYPE_CHECKING:
    from booklet.model.pattern import ArtFile, Pattern, Section, Step
    from booklet.sew.bench import Act


def sections_of(
    pattern: Pattern,
    views: tuple[str, ...],
    writer: Writer,
    acts: dict[str, list[Act]],
    figures: dict[str, tuple[Figure, ...]],
    cautions: dict[str, tuple[Caution, ...]],
) -> list[PlanSection]:
    """acts, figures, cautions: by the step's id. A section of which these views sew nothing is passed over."""

    def planned(step: Step) -> PlanStep:
        return PlanStep(
            number=step.number,
            id=step.id,
            title=one_line(step.title),
            views=step.scope.views,
            everyone=set(views) <= set(step.scope.views),
            optional=step.optional,
            text=writer.prose(step.text) or work_prose(pattern, step, acts.get(step.id, []), views, writer),
            tip=writer.prose(step.tip),
            cautions=cautions.get(step.id, ()),
            figures=figures.get(step.id, ()),
            codes=tuple(_codes(step)),
            file=step.place.file,
            line=step.place.line,
        )

    sections: list[PlanSection] = []
    left_out: list[Step] = []
    for section in pattern.sections:
        if any(set(step.scope.views) & set(views) for step in section.steps):
            sections.append(_section(section, views, writer, left_out, planned))
        else:
            left_out += section.steps
    if left_out and sections:
        sections[-1].items += _gap(left_out)
    return sections


def _section(
    section: Section, views: tuple[str, ...], writer: Writer, left_out: list[Step], planned: Callable[[Step], PlanStep]
) -> PlanSection:
    """Takes over the steps that were left out before it, and leaves none behind."""
    items: list[PlanStep | Gap] = []
    for step in section.steps:
        if not set(step.scope.views) & set(views):
            left_out.append(step)
            continue
        items += _gap(left_out)
        left_out.clear()
        items.append(planned(step))
    items += _gap(left_out)
    left_out.clear()
    return PlanSection(one_line(section.title), writer.prose(section.text), items)


def _gap(left_out: Sequence[Step]) -> list[PlanStep | Gap]:
    """One gap for a run of numbers: `Steps 14 to 16 are for views B and C.`"""
    if not left_out:
        return []
    whose: dict[tuple[str, ...], list[int]] = {}
    for step in left_out:
        whose.setdefault(step.scope.views, []).append(step.number)
    said = "; ".join(
        f"{_steps(numbers)} {'is' if len(numbers) == 1 else 'are'} for {view_words(views)}"
        for views, numbers in whose.items()
    )
    return [Gap(dashed([step.number for step in left_out]), f"{said[:1].upper()}{said[1:]}.")]


def _steps(numbers: list[int]) -> str:
    return f"{'step' if len(numbers) == 1 else 'steps'} {listed(number_runs(numbers))}"


def view_words(views: Sequence[str]) -> str:
    """`view B`, `views B and C`, `no view`."""
    if not views:
        return "no view"
    return f"view{'s' if len(views) > 1 else ''} {listed(views)}"


def number_runs(numbers: Iterable[int]) -> list[str]:
    """`14 to 16`; two in a row stay two."""
    said = []
    for first, last in _bounds(numbers):
        said += [f"{first} to {last}"] if last > first + 1 else [str(number) for number in range(first, last + 1)]
    return said


def _bounds(numbers: Iterable[int]) -> list[tuple[int, int]]:
    bounds: list[tuple[int, int]] = []
    for number in numbers:
        if bounds and number == bounds[-1][1] + 1:
            bounds[-1] = (bounds[-1][0], number)
        else:
            bounds.append((number, number))
    return bounds


def dashed(numbers: list[int]) -> str:
    return ", ".join(str(first) if first == last else f"{first}–{last}" for first, last in _bounds(numbers))


def _codes(step: Step) -> Iterator[str]:
    """The published codes of its work, in the notation of ASTM D6193: the stitch, then the seam."""
    for entry in step.work:
        written = [one_line(entry.options[key].value) for key in ("stitch", "class") if key in entry.options]
        if written:
            yield f"{entry.name}: {' '.join(written)}"


def art_of(art: ArtFile | None) -> Art | None:
    if art is None:
        return None
    return Art(art.file.value.strip(), one_line(art.shows.value) if art.shows else "")
