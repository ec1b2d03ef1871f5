"""The film of one view: its takes in order, how long each lasts, and the chapters that come of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from booklet.plan.film.times import Timed
from booklet.plan.plan import Chapter, FilmPlan, PlanView, Shot
from booklet.plan.prose import plain
from booklet.plan.write import one_line
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern, Step, Take
    from booklet.plan.write import Writer

# How many words a minute, where the film does not say? Within 130 to 150 for hands-busy watching: computed from the
# rates of narration (about 150) and of lectures (100 to 120); see also Tauroza & Allison 1990, from memory.
PACE = 140.0
# Which chapters does a video description take? The first at 0:00, three or more, each of 10 s or more, ascending.
# Source: support.vevo.com/hc/en-us/articles/6945557784347, as read; the platform's own page was not.
SHORTEST_CHAPTER = 10
FEWEST_CHAPTERS = 3
# To what is an estimate rounded? Half a minute: our choice, no finer than it deserves.
ROUND_TO = 0.5


class _Placed(NamedTuple):
    """A take in its place: of a step, or of none."""

    step: Step | None
    take: Take | None


def film_of(pattern: Pattern, views: dict[str, PlanView], writer: Writer) -> FilmPlan | None:
    """The view of film.yaml, else the first; None where the plan is of another.

    Every step of it has a shot, with or without a take of the writer's; an optional step only with one.
    """
    letter = _film_view(pattern)
    if letter not in views:
        return None
    pace = pattern.film.pace if pattern.film and pattern.film.pace else PACE
    placed = enumerate(_in_order(pattern, letter), start=1)
    shots = [_shot(number, one, pattern, pace, writer) for number, one in placed]
    setups = pattern.film.setups.values() if pattern.film else ()
    described = tuple((one_line(name.value), one_line(words.value)) for name, words in setups)
    ids = {step.number: step.id for step in pattern.steps}
    link = pattern.film.link if pattern.film else ""
    seconds = sum(_seconds(shot) for shot in shots)
    return FilmPlan(views[letter], _chapters(shots), shots, seconds, described, _planned(shots, ids), link)


def _planned(shots: Sequence[Shot], ids: dict[int, str]) -> tuple[Timed, ...]:
    """When each step and each take of its own begins, as planned."""
    found: list[Timed] = []
    start = 0
    for shot in shots:
        end = start + _seconds(shot)
        if found and shot.step is not None and found[-1].number == shot.step:
            found[-1] = found[-1]._replace(end=end)
        else:
            title = f"Step {shot.step}: {shot.step_title}" if shot.step is not None else shot.step_title
            found.append(Timed(ids[shot.step] if shot.step is not None else None, shot.step, title, start, end))
        start = end
    return tuple(found)


def _film_view(pattern: Pattern) -> str:
    wanted = pattern.film.view if pattern.film else None
    if wanted is not None:
        for letter in pattern.views:
            if same_name(letter) == same_name(wanted.value):
                return letter
    return next(iter(pattern.views), "")


def _in_order(pattern: Pattern, letter: str) -> list[_Placed]:
    steps = pattern.steps_of(letter)
    free = list(pattern.film.takes) if pattern.film else []
    before: dict[int, list[_Placed]] = {}
    for take in free:
        before.setdefault(_place(take, pattern, steps), []).append(_Placed(None, take))
    placed: list[_Placed] = []
    for at, step in enumerate(steps):
        placed += before.get(at, [])
        placed += [_Placed(step, take) for take in step.film]
        if not step.film and not step.optional:
            placed.append(_Placed(step, None))
    return [*placed, *before.get(len(steps), [])]


def _place(take: Take, pattern: Pattern, steps: Sequence[Step]) -> int:
    """Before how many of the view's steps are done. A step that another view sews still has its place among them."""
    words = same_name(take.when.value) if take.when else "last"
    if words == "first":
        return 0
    way, _, name = words.partition(" ")
    step = pattern.step(name)
    if way not in ("before", "after") or step is None:
        return len(steps)
    return sum(1 for other in steps if other.number < step.number or (way == "after" and other is step))


def _shot(number: int, placed: _Placed, pattern: Pattern, pace: float, writer: Writer) -> Shot:
    step, take = placed
    title = one_line(step.title) if step else _text(take.title if take else None)
    setup = _text(take.setup) if take else ""
    if setup and pattern.film and same_name(setup) in pattern.film.setups:
        setup = one_line(pattern.film.setups[same_name(setup)][0].value)
    show, say = (_plain(take.show, writer), _plain(take.say, writer)) if take else (title, "")
    given = take.minutes if take else None
    minutes = given if given is not None else _estimate(step, say, pace)
    return Shot(number, step.number if step else None, title, setup, show, say, minutes, given is None)


def _estimate(step: Step | None, say: str, pace: float) -> float:
    """As long as the words take, or this take's share of what the step's operations take, whichever is longer."""
    spoken = len(say.split()) / pace
    worked = 0.0
    if step is not None:
        takes = max(len(step.film), 1)
        worked = sum(float(entry.operation.minutes) for entry in step.work) / takes
        if step.minutes is not None:
            worked = min(worked, step.minutes / takes) if step.work else step.minutes / takes
    return max(math.ceil(max(spoken, worked) / ROUND_TO) * ROUND_TO, ROUND_TO)


def _seconds(shot: Shot) -> int:
    return round(shot.minutes * 60)


def _chapters(shots: Sequence[Shot]) -> list[Chapter]:
    """One a step and one a take of its own; the takes one by one where that would leave fewer than three."""
    if not any(_seconds(shot) for shot in shots):
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
            found[-1] = (found[-1][0] + _seconds(shot), found[-1][1], mine)
        else:
            found.append((_seconds(shot), title, mine))
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


def _plain(text: Text | None, writer: Writer) -> str:
    """With its measures in both systems and its steps' numbers, as in the booklet."""
    return plain(writer.line(text.value)) if text is not None else ""


def _text(text: Text | None) -> str:
    return one_line(text.value) if text is not None else ""
