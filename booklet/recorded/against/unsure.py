"""Chapters whose time is to be looked at."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.recorded.against.places import capital, line_of, warning
from booklet.recorded.cues import clock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.recorded.filmed import Filmed


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    for chapter in filmed.chapters:
        if chapter.confidence != "look":
            continue
        take = filmed.takes[chapter.take]
        key = take.step.id if take.step is not None else take.title
        comma = "," if take.step is not None else ""
        says = f"{capital(take.called)}{comma} seems to begin at {clock(chapter.start)}, but {chapter.why}. "
        says += "Until it is settled it has no chapter of its own: the one before names both."
        mend = (
            f"Look at the film there, and write the time under “times:” in film.yaml: “{key}: {clock(chapter.start)}”."
        )
        yield warning("chapter-unsure", filmed, take, line_of(filmed, chapter.line), says, mend, chapter.start)
