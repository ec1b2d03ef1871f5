"""Steps of the booklet that are not filmed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.words import listed
from booklet.finding import Finding
from booklet.recorded.against.places import capital, line_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.model.pattern import Pattern, Step
    from booklet.recorded.filmed import Filmed

# Where so many steps are missing, and more than half of those that no one settled by hand, one cause is likelier than
# as many: the recording is of another film, or of a part. Our choice.
MANY = 5


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    assert filmed.recording is not None
    how = f"{filmed.recording.file} {'says nothing of' if filmed.recording.cues else 'has no marker for'}"
    needed = [step for take in filmed.takes if (step := take.step) is not None and not step.optional]
    gone = {filmed.takes[at].step for at in filmed.gone}
    missing = {filmed.takes[at].step for at in filmed.missing}
    unheard = [step for step in needed if step in missing and step not in gone]
    by_hand = sum(chapter.source == "corrected" for chapter in filmed.chapters)
    if len(unheard) >= MANY and 2 * len(unheard) > len(needed) - by_hand:
        yield _most(pattern, filmed, how, unheard, len(needed))
        unheard = []
    for step in needed:
        if step in gone and step in missing:
            yield _one(filmed, step, "film.yaml says so")
        elif step in unheard:
            yield _one(filmed, step, f"{how} it")


def _one(filmed: Filmed, step: Step, why: str) -> Finding:
    says = f"{capital(step.called)}, is not filmed: {why}."
    mend = (
        f"Film it, or say in the film that it is left out. If it is there, write its time in film.yaml: "
        f"“times: {{{step.id}: 12:40}}”."
    )
    return Finding("step-not-filmed", "warning", (filmed.view,), step.id, step.place, says, mend)


def _most(pattern: Pattern, filmed: Filmed, how: str, unheard: Sequence[Step], of: int) -> Finding:
    """Located at the recording's name."""
    named = pattern.film.recorded if pattern.film else None
    place = named.place if named is not None else line_of(filmed, 1)
    says = f"{how} any step of view {filmed.view}."
    if len(unheard) < of:
        numbers = listed(str(step.number) for step in unheard)
        says = f"{how} {len(unheard)} of the {of} steps of view {filmed.view}: {numbers}."
    mend = (
        "Look whether it is the recording of this film, and of all of it. If it is, write the times of these steps "
        "in film.yaml, as “times: {hem: 12:40}”."
    )
    return Finding("step-not-filmed", "warning", (filmed.view,), None, place, says, mend)
