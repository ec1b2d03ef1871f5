"""The chapters that come of the takes: one a step, and one a take of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.film.times import Timed
from booklet.plan.plan import Chapter

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.plan.plan import Shot

# Which chapters does a video description take? The first at 0:00, three or more, each of 10 s or more, ascending.
# Source: support.vevo.com/hc/en-us/articles/6945557784347, as read; the platform's own page was not.
SHORTEST_CHAPTER = 10
FEWEST_CHAPTERS = 3


def planned_times(shots: Sequence[Shot], ids: dict[int, str]) -> tuple[Timed, ...]:
    """When each step and each take of its own begins, as planned."""
    found: list[Timed] = []
    start = 0
    for shot in shots:
        end = start + seconds_of(shot)
        if found and shot.step is not None and found[-1].number == shot.step:
            found[-1] = found[-1]._replace(end=end)
        else:
            title = f"Step {shot.step}: {shot.step_title}" if shot.step is not None else shot.step_title
            found.append(Timed(ids[shot.step] if shot.step is not None else None, shot.step, title, start, end))
        start = end
    return tuple(found)


def seconds_of(shot: Shot) -> int:
    return round(shot.minutes * 60)


def chapters_of(shots: Sequence[Shot]) -> list[Chapter]:
    """One a step and one a take of its own; the takes one by one where that would leave fewer than three."""
    if not any(seconds_of(shot) for shot in shots):
        return []
    by_step = _lengths(shots, by_step=True)
    lengths = by_step if len(by_step) >= FEWEST_CHAPTERS else _lengths(shots, by_step=False)
    chapters: list[Chapter] = []
    start = 0
    for seconds, title in lengths:
        chapters.append(Chapter(start, title))
        start += seconds
    return chapters


def _lengths(shots: Iterable[Shot], *, by_step: bool) -> list[tuple[int, str]]:
    """How long each chapter lasts, and its title. One that would be too short is joined to the next."""
    found: list[tuple[int, str, tuple[int | None, str]]] = []
    for shot in shots:
        title = f"Step {shot.step}: {shot.step_title}" if shot.step is not None else shot.step_title
        mine = (shot.step, shot.step_title) if by_step else (shot.take, "")
        if not by_step and shot.step is not None and shot.show and shot.show != shot.step_title:
            title = f"{title}. {shot.show}"
        if found and found[-1][2] == mine:
            found[-1] = (found[-1][0] + seconds_of(shot), found[-1][1], mine)
        else:
            found.append((seconds_of(shot), title, mine))
    joined: list[tuple[int, str]] = []
    for seconds, title, _ in found:
        if joined and joined[-1][0] < SHORTEST_CHAPTER:
            joined[-1] = (joined[-1][0] + seconds, f"{joined[-1][1]}; {title}")
        else:
            joined.append((seconds, title))
    if len(joined) > 1 and joined[-1][0] < SHORTEST_CHAPTER:
        seconds, title = joined.pop()
        joined[-1] = (joined[-1][0] + seconds, f"{joined[-1][1]}; {title}")
    return joined
