"""How long a take lasts where the writer does not say: from the words, and from the work."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from booklet.check.spoken import words_of
from booklet.craft.load import table
from booklet.length import parse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import EdgeName, Entry, Step, Take

# The length in millimetres of one edge of a piece, as drawn in the size of the figures; None where it is not known.
EdgeLength = Callable[[str, str], "float | None"]

# How many words a minute, where the film does not say? Within 130 to 150 for hands-busy watching: computed from the
# rates of narration (about 150) and of lectures (100 to 120); see also Tauroza & Allison 1990, from memory.
PACE = 140.0
# To what is an estimate rounded? Half a minute: our choice, no finer than it deserves.
ROUND_TO = 0.5
# Of the minutes of work along an edge, how much goes with its length? Half: our choice; the other half is pinning, the
# machine's setting and the thread ends. An edge far longer is not filmed to its end, so that no more than twice is
# taken.
GOES_WITH_LENGTH = 0.5
MOST_TIMES = 2.0


def minutes_of(step: Step | None, take: Take | None, pace: float, length: EdgeLength) -> float:
    """As long as the words take, or this take's share of what the step's operations take, whichever is longer."""
    spoken = words_of(take) / pace if take is not None else 0.0
    worked = 0.0
    if step is not None:
        takes = max(len(step.film), 1)
        worked = sum(_worked(entry, length) for entry in step.work) / takes
        if step.minutes is not None:
            worked = min(worked, step.minutes / takes) if step.work else step.minutes / takes
    return max(math.ceil(max(spoken, worked) / ROUND_TO) * ROUND_TO, ROUND_TO)


def _worked(entry: Entry, length: EdgeLength) -> float:
    minutes = float(entry.operation.minutes)
    along = _length_of(entry, length)
    if along is None:
        return minutes
    typical = float(parse(table("limits")["typical edge"]["metric"]).millimetres)
    times = 1 - GOES_WITH_LENGTH + GOES_WITH_LENGTH * along / typical
    return minutes * min(times, MOST_TIMES)


def _length_of(entry: Entry, length: EdgeLength) -> float | None:
    """Of the longest side that is sewn, or of all edges that are worked one after the other."""
    sides = [_sum(side, length) for side in entry.sides] if entry.sides else [_sum(entry.things, length)]
    return max((side for side in sides if side is not None), default=None)


def _sum(edges: Sequence[EdgeName], length: EdgeLength) -> float | None:
    known = [found for edge in edges if (found := length(edge.part, edge.edge)) is not None]
    return sum(known) if known else None
