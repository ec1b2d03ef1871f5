"""Chapters with both ends, in whole milliseconds: what every form is written from."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from booklet.plan.plan import FilmPlan


class Span(NamedTuple):
    """start, end: milliseconds from the beginning of the film; title: one line."""

    start: int
    end: int
    title: str


def spans(film: FilmPlan) -> list[Span]:
    """One after the other, without gaps, to the end of the film."""
    starts = [round(chapter.start * 1000) for chapter in film.chapters]
    ends = [*starts[1:], round(film.seconds * 1000)]
    titles = [" ".join(chapter.title.split()) for chapter in film.chapters]
    return [Span(*row) for row in zip(starts, ends, titles, strict=False) if row[1] > row[0]]


def is_planned(film: FilmPlan) -> bool:
    """Whether all times are those of the plan, as nothing is recorded yet."""
    return all(timed.source == "planned" for timed in film.times)


def clock(milliseconds: int) -> str:
    """`0:00`, `12:05`, `1:02:05`; parts of a second are dropped, so that no chapter begins before its time is over."""
    minutes, seconds = divmod(milliseconds // 1000, 60)
    if minutes < 60:
        return f"{minutes}:{seconds:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{seconds:02d}"
