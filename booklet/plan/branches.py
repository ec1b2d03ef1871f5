"""The views side by side: which steps all share, where branches leave and meet, what each view adds and drops."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from booklet.plan.naming import listed
from booklet.plan.plan import Branches, Parting, PlanStep, Run, Share
from booklet.plan.steps import number_runs, view_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.plan.plan import PlanSection, PlanView


def branches_of(views: Sequence[PlanView], sections: Sequence[PlanSection]) -> Branches | None:
    """None where there is but one view, and so nothing to tell apart."""
    if len(views) < 2:
        return None
    letters = tuple(view.letter for view in views)
    runs = tuple(_runs(sections))
    by_views: dict[tuple[str, ...], list[int]] = {}
    for run in runs:
        by_views.setdefault(run.views, []).extend(run.numbers)
    shared = tuple(by_views.get(letters, ()))
    return Branches(
        views=letters,
        runs=runs,
        shared=shared,
        partings=tuple(_partings(runs, letters)),
        shares=tuple(_share(view, letters, runs, by_views) for view in views),
        says=tuple(_sentences(letters, by_views)),
    )


def _runs(sections: Iterable[PlanSection]) -> Iterable[Run]:
    for section in sections:
        steps = (item for item in section.items if isinstance(item, PlanStep))
        begins = True
        for views, alike in groupby(steps, key=lambda step: step.views):
            yield Run(section.title, begins, tuple((step.number, step.title) for step in alike), views)
            begins = False


def _partings(runs: Sequence[Run], letters: tuple[str, ...]) -> Iterable[Parting]:
    at = 0
    for is_shared, alike in groupby(runs, key=lambda run: run.views == letters):
        apart = list(alike)
        first, at = at, at + len(apart)
        if is_shared:
            continue
        each = {
            letter: tuple(number for run in apart if letter in run.views for number in run.numbers)
            for letter in letters
            if any(letter in run.views for run in apart)
        }
        after = runs[first - 1].numbers[-1] if first else None
        until = runs[at].numbers[0] if at < len(runs) else None
        yield Parting(after, until, first, at, each)


def _share(
    view: PlanView, letters: tuple[str, ...], runs: Sequence[Run], by_views: dict[tuple[str, ...], list[int]]
) -> Share:
    letter = view.letter
    return Share(
        letter=letter,
        name=view.name,
        sews=tuple(number for run in runs if letter in run.views for number in run.numbers),
        adds=tuple(
            (tuple(other for other in views if other != letter), tuple(numbers))
            for views, numbers in by_views.items()
            if letter in views and views != letters
        ),
        drops=tuple(number for run in runs if letter not in run.views for number in run.numbers),
    )


def steps_words(numbers: Sequence[int]) -> str:
    """`step 7`, `steps 1 to 6 and 8`."""
    return f"step{'s' if len(numbers) > 1 else ''} {listed(number_runs(numbers))}"


def _sentences(letters: tuple[str, ...], by_views: dict[tuple[str, ...], list[int]]) -> Iterable[str]:
    """First of all views, then of each set of views in the order in which they are met."""
    everyone = "Both views" if len(letters) == 2 else "All views"
    shared = by_views.get(letters)
    yield f"{everyone} share {steps_words(shared)}." if shared else f"No step is shared by {everyone.lower()}."
    for views, numbers in by_views.items():
        if views != letters:
            said = steps_words(numbers)
            be = "is" if len(numbers) == 1 else "are"
            yield f"{said[:1].upper()}{said[1:]} {be} for {view_words(views)}{' alone' if len(views) == 1 else ''}."
