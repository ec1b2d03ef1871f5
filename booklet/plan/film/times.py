"""When each step is sewn in the film: planned from the takes, or as it was recorded."""

from __future__ import annotations

from typing import NamedTuple


class Timed(NamedTuple):
    """A chapter's worth of film.

    step: the step's id, or None for a take of its own; number: the step's; start, end: seconds from the beginning, end
    None where nothing says it; confidence: sure | look | planned; source: recorded | corrected | planned.
    """

    step: str | None
    number: int | None
    title: str
    start: float
    end: float | None
    confidence: str = "planned"
    source: str = "planned"

    @property
    def settled(self) -> bool:
        """Whether the time may be printed as it stands."""
        return self.confidence != "look"
