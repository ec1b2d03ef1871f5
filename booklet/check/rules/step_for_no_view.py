"""A step is for no view at all.

What it finds: a step whose `for` and `not for` together leave no view, though each of their words is known.

Why it matters at the machine: nobody ever reads it; what it makes is missing from every booklet.

Wrong:
    steps:
      - {id: hem, title: Hem, for: A, not for: sleeveless, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: hem, title: Hem, for: A, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Source: our choice: a step that is never printed is a slip.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Pattern, Step
from booklet.read.tree import same_name

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    known = {same_name(view.letter) for view in pattern.views.values()}
    known |= {same_name(word.value) for view in pattern.views.values() for word in view.words}
    for step in pattern.steps:
        words = (*step.scope.wanted, *step.scope.unwanted)
        if not step.scope.views and all(same_name(word.value) in known for word in words):
            yield _found(step)


def _found(step: Step) -> Found:
    wanted = listed(text.value.strip() for text in step.scope.wanted)
    unwanted = listed(text.value.strip() for text in step.scope.unwanted)
    left = f"“for: {wanted}” and “not for: {unwanted}” leave" if wanted else f"“not for: {unwanted}” leaves"
    first = (*step.scope.wanted, *step.scope.unwanted)[0]
    return Found(
        first.place,
        step,
        f"{step.called[0].upper()}{step.called[1:]}, is for no view: {left} none.",
        "Take one of the words out, or take the step out.",
    )
