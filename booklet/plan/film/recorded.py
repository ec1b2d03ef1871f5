"""The times of a film as it was recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.film.chapters import SHORTEST_CHAPTER
from booklet.plan.film.times import Timed
from booklet.plan.plan import Chapter
from booklet.plan.write import one_line

if TYPE_CHECKING:
    from collections.abc import Sequence

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


def chapters_at(times: Sequence[Timed]) -> list[Chapter]:
    """The chapters that may be published: what is to be looked at is left out, the first begins with the film.

    One that would be too short is joined to the next.
    """
    settled = [timed for at, timed in enumerate(times) if timed.settled or at == 0]
    found: list[Chapter] = []
    for at, timed in enumerate(settled):
        start = int(timed.start) if at else 0
        if found and start - found[-1].start < SHORTEST_CHAPTER:
            found[-1] = Chapter(found[-1].start, f"{found[-1].title}; {timed.title}")
        else:
            found.append(Chapter(start, timed.title))
    return found
