"""Where a finding of the film points: at the recording's line, with the step beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.finding import Finding, Place, Related

if TYPE_CHECKING:
    from booklet.recorded.filmed import Filmed
    from booklet.recorded.phrases import Phrase
    from booklet.recorded.takes import Candidate


def line_of(filmed: Filmed, line: int) -> Place:
    name = filmed.recording.file if filmed.recording is not None else "film.yaml"
    return Place(name, max(line, 1), 1, max(line, 1), 1)


def phrase_line(filmed: Filmed, phrase: Phrase) -> Place:
    assert filmed.recording is not None
    return line_of(filmed, filmed.recording.cues[phrase.cue].line)


def beside(take: Candidate) -> tuple[Related, ...]:
    """The step's place, as the other half of a conflict."""
    return (Related(f"{capital(take.called)} stands here", take.step.place),) if take.step is not None else ()


def warning(
    rule: str, filmed: Filmed, take: Candidate | None, place: Place, says: str, mend: str, time: float
) -> Finding:
    """time: in seconds of the film."""
    step = take.id if take is not None else None
    related = beside(take) if take is not None else ()
    return Finding(rule, "warning", (filmed.view,), step, place, says, mend, related, time=time)


def capital(words: str) -> str:
    return words[:1].upper() + words[1:]
