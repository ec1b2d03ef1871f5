"""The times of a film as it was recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.film.times import Timed
from booklet.plan.write import one_line

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern


def recorded_times(pattern: Pattern, letter: str) -> tuple[Timed, ...]:
    """By their start; empty where nothing was recorded of this view, and nothing corrected by hand."""
    if pattern.film is None or (pattern.film.recorded is None and not pattern.film.times):
        return ()
    from booklet.recorded.filmed import what_was_filmed

    filmed = what_was_filmed(pattern)
    if filmed is None or filmed.view != letter:
        return ()
    times = []
    for chapter in filmed.chapters:
        step = filmed.takes[chapter.take].step
        title = one_line(filmed.takes[chapter.take].title)
        number = step.number if step is not None else None
        named = f"Step {number}: {title}" if step is not None else title
        id_ = step.id if step is not None else None
        times.append(Timed(id_, number, named, chapter.start, chapter.end, chapter.confidence, chapter.source))
    return tuple(times)
