"""The film held against the booklet: what is missing, what is more, another order, and what is said otherwise."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from booklet.finding import Finding
    from booklet.model.pattern import Pattern


def film_findings(pattern: Pattern) -> list[Finding]:
    """All that is found in the recording, those that the writer allows among them; nothing where there is none."""
    from booklet.check.engine import with_reasons
    from booklet.recorded.against import misheard_words, missing, order, said_measures, said_names, strays, unsure
    from booklet.recorded.filmed import what_was_filmed

    filmed = what_was_filmed(pattern)
    if filmed is None:
        return []
    found = list(filmed.findings)
    if filmed.recording is not None:
        for part in (unsure, missing, order, strays, said_measures, said_names, misheard_words):
            found += part.find(pattern, filmed)
    return with_reasons(pattern, found)
