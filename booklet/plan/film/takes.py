"""The film of one view: its takes in their order, what each shows and says, and how long it lasts."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.check.spoken import words_of
from booklet.model.placing import steps_before
from booklet.plan.film.chapters import SHORTEST_CHAPTER, chapters_of, planned_times, seconds_of
from booklet.plan.film.estimates import PACE, EdgeLength, minutes_of
from booklet.plan.film.notes import Notes
from booklet.plan.film.recorded import chapters_at, recorded_times
from booklet.plan.plan import FilmPlan, PlanView, Shot
from booklet.plan.prose import plain
from booklet.plan.write import one_line
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern, Step, Take
    from booklet.plan.prose import Prose
    from booklet.plan.write import Writer


class Placed(NamedTuple):
    """A take in its place: of a step, or of none."""

    step: Step | None
    take: Take | None


def film_of(
    pattern: Pattern,
    views: dict[str, PlanView],
    writer: Writer,
    length: EdgeLength = lambda _piece, _edge: None,
) -> FilmPlan | None:
    """The view of film.yaml, else the first; None where the plan is of another.

    Every step of it has a shot, with or without a take of the writer's; an optional step only with one.
    """
    letter = _film_view(pattern)
    if letter not in views:
        return None
    pace = pattern.film.pace if pattern.film and pattern.film.pace else PACE
    notes = Notes(pattern, letter, writer)
    placed = enumerate(placed_takes(pattern, letter), start=1)
    shots = [_shot(number, one, pattern, pace, writer, notes, length) for number, one in placed]
    setups = pattern.film.setups.values() if pattern.film else ()
    described = tuple((one_line(name.value), one_line(words.value)) for name, words in setups)
    ids = {step.number: step.id for step in pattern.steps}
    link = pattern.film.link if pattern.film else ""
    seconds = sum(seconds_of(shot) for shot in shots)
    recorded = recorded_times(pattern, letter)
    times = recorded or planned_times(shots, ids)
    chapters = chapters_at(recorded) if recorded else chapters_of(shots)
    if recorded:
        seconds = max(round(recorded[-1].end or 0), chapters[-1].start + SHORTEST_CHAPTER)
    return FilmPlan(views[letter], chapters, shots, seconds, described, times, link, pace)


def _film_view(pattern: Pattern) -> str:
    wanted = pattern.film.view if pattern.film else None
    if wanted is not None:
        for letter in pattern.views:
            if same_name(letter) == same_name(wanted.value):
                return letter
    return next(iter(pattern.views), "")


def placed_takes(pattern: Pattern, letter: str) -> list[Placed]:
    """The takes of a view in the order of the film, those of no step where they are placed."""
    steps = pattern.steps_of(letter)
    free = list(pattern.film.takes) if pattern.film else []
    before: dict[int, list[Placed]] = {}
    for take in free:
        before.setdefault(steps_before(take, pattern, steps), []).append(Placed(None, take))
    placed: list[Placed] = []
    for at, step in enumerate(steps):
        placed += before.get(at, [])
        placed += [Placed(step, take) for take in step.film]
        if not step.film and not step.optional:
            placed.append(Placed(step, None))
    return [*placed, *before.get(len(steps), [])]


def _shot(
    number: int, placed: Placed, pattern: Pattern, pace: float, writer: Writer, notes: Notes, length: EdgeLength
) -> Shot:
    step, take = placed
    title = one_line(step.title) if step else _text(take.title if take else None)
    given = take.minutes if take else None
    say, others = (_prose(take.say, writer), _prose(take.others, writer)) if take else ((), ())
    return Shot(
        take=number,
        step=step.number if step else None,
        step_title=title,
        setup=_setup(take, pattern),
        show=plain(_prose(take.show, writer)) if take else title,
        say=plain(say),
        minutes=given if given is not None else minutes_of(step, take, pace, length),
        estimated=given is None,
        others=plain(others),
        notes=notes.of(take) if take else (),
        words=words_of(take) if take else 0,
        spoken=say,
        spoken_of_others=others,
    )


def _setup(take: Take | None, pattern: Pattern) -> str:
    """As film.yaml spells it."""
    name = _text(take.setup) if take else ""
    if name and pattern.film and same_name(name) in pattern.film.setups:
        return one_line(pattern.film.setups[same_name(name)][0].value)
    return name


def _prose(text: Text | None, writer: Writer) -> Prose:
    """With its measures in both systems and its steps' numbers, as in the booklet."""
    return writer.line(text.value) if text is not None else ()


def _text(text: Text | None) -> str:
    return one_line(text.value) if text is not None else ""
