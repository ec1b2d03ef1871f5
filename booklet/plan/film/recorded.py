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


# How long may a joint title be, in signs? A description shows a chapter's title on one line: our choice.
LONGEST_TITLE = 100


def chapters_at(times: Sequence[Timed]) -> list[Chapter]:
    """The chapters that may be published: they begin at settled times alone, and the first with the film.

    A list of chapters has no gaps: where the next begins is unsettled, the one before lasts over it, and its title
    names both. One that would be too short is joined to the next.
    """
    found: list[tuple[int, list[Timed]]] = []
    for at, timed in enumerate(times):
        start = int(timed.start) if at else 0
        if found and (not timed.settled or start - found[-1][0] < SHORTEST_CHAPTER):
            found[-1][1].append(timed)
        else:
            found.append((start, [timed]))
    return [Chapter(start, _joint(shown)) for start, shown in found]


def _joint(shown: Sequence[Timed]) -> str:
    """`Step 11: Sew the darts / Step 12: Make the loops`; of very many, the first and how many more."""
    titles = [timed.title for timed in shown]
    for kept in range(len(titles), 1, -1):
        more = len(titles) - kept
        title = " / ".join(titles[:kept]) + (f" / and {more} more" if more else "")
        if len(title) <= LONGEST_TITLE:
            return title
    return titles[0] if len(titles) == 1 else f"{titles[0]} / and {len(titles) - 1} more"
