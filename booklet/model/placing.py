"""Where a take that belongs to no step stands among the steps of a view."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern, Step, Take


def steps_before(take: Take, pattern: Pattern, steps: Sequence[Step]) -> int:
    """Before how many of the view's steps are done. A step that another view sews still has its place among them."""
    words = same_name(take.when.value) if take.when else "last"
    if words == "first":
        return 0
    way, _, name = words.partition(" ")
    step = pattern.step(name)
    if way not in ("before", "after") or step is None:
        return len(steps)
    return sum(1 for other in steps if other.number < step.number or (way == "after" and other is step))
