"""Steps of the booklet that are not filmed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.finding import Finding
from booklet.recorded.against.places import capital

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Pattern
    from booklet.recorded.filmed import Filmed


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    assert filmed.recording is not None
    for at in filmed.missing:
        step = filmed.takes[at].step
        if step is None or step.optional:
            continue
        if at in filmed.gone:
            says = f"{capital(step.called)}, is not filmed: film.yaml says so."
        else:
            how = "says nothing of" if filmed.recording.cues else "has no marker for"
            says = f"{capital(step.called)}, is not filmed: {filmed.recording.file} {how} it."
        mend = (
            f"Film it, or say in the film that it is left out. If it is there, write its time in film.yaml: "
            f"“times: {{{step.id}: 12:40}}”."
        )
        yield Finding("step-not-filmed", "warning", (filmed.view,), step.id, step.place, says, mend)
