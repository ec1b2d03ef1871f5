"""Two steps have the same id.

What it finds: an `id` that an earlier step has, compared without regard to case and doubled blanks.

Why it matters at the machine: “see step …” would print the number of the wrong one.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - {id: hem, title: Hem the back, work: [{hem: back.hem, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: hem front, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - {id: hem back, title: Hem the back, work: [{hem: back.hem, turns: [1/2 in, 1/2 in]}]}

Source: our choice: an id is how steps speak of each other.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.ids import by_id
from booklet.finding import Related
from booklet.model.pattern import Pattern, Step
from booklet.read.tree import same_name

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    first = by_id(pattern.steps)
    for step in pattern.steps:
        other = first[same_name(step.id)]
        if other is not step:
            yield Found(
                step.place,
                step,
                f"{step.called[0].upper()}{step.called[1:]}, has the id “{step.id}” of {other.called}.",
                f"{_copied(step, other)} another id, and look at the steps that speak of it.",
                (Related("It stands here first", other.place),),
            )


def _copied(step: Step, other: Step) -> str:
    """A step that was copied whole is most likely one too many."""
    copied = same_name(step.title) == same_name(other.title)
    return "Leave one of the two out, or give it" if copied else "Give one of the two"
