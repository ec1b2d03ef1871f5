"""Things that are called otherwise than printed: a word of the trade for something that the view does not have."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.recorded.against.places import phrase_line, warning
from booklet.recorded.against.told import told_of
from booklet.recorded.cues import clock
from booklet.recorded.spoken import spoken, stem

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.recorded.filmed import Filmed

# Words of a title or of the work count so much: what a step is about.
_ABOUT = 1.5


def find(pattern: Pattern, filmed: Filmed) -> Iterator[Finding]:
    if filmed.aligned is None:
        return
    groups: list[list[str]] = spoken()["unlike"]
    of_view = {token for take in filmed.takes for token in take.words}
    done: set[tuple[str, str]] = set()
    for told in told_of(pattern, filmed):
        if told.phrase.aside:
            continue
        for word in told.phrase.words:
            base = stem(word.word)
            for group in groups:
                stems = {stem(other): other for other in group}
                if base not in stems or base in of_view or (told.take.title, base) in done:
                    continue
                printed = [name for other, name in stems.items() if told.take.words.get(other, 0) >= _ABOUT]
                if not printed:
                    continue
                done.add((told.take.title, base))
                says = (
                    f"At {clock(told.phrase.start)}, in {told.take.called}, “{word.word}” is said. "
                    f"The booklet calls it a {printed[0]}, and has no {stems[base]} in view {filmed.view}."
                )
                mend = "Listen there. Say the printed name, or show it on the screen."
                place, time = phrase_line(filmed, told.phrase), told.phrase.start
                yield warning("name-said-otherwise", filmed, told.take, place, says, mend, time)
