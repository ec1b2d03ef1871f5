"""Steps wait for one another in a ring.

What it finds: `after:` entries that lead from a step back to itself.

Why it matters at the machine: there is no order in which they can be sewn.

Wrong:
    steps:
      - {id: fit, title: Try it on, after: [hem], work: [{try on: front}]}
      - {id: hem, title: Hem, after: [fit], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: fit, title: Try it on, work: [{try on: front}]}
      - {id: hem, title: Hem, after: [fit], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Source: our choice: the order of sewing is a partial order, and a partial order has no ring.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.ids import afters, by_id, rings
from booklet.finding import Place, Related
from booklet.model.pattern import Pattern, Step
from booklet.read.tree import same_name

LEVEL = "error"
# How many steps of a ring does the sentence name? Our choice.
MOST_NAMED = 6


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    steps = by_id(pattern.steps)
    for ring in rings(afters(steps)):
        yield _found([steps[name] for name in ring])


def _found(ring: list[Step]) -> Found:
    first = ring[0]
    if len(ring) == 1:
        says = f"{_start(first)} comes after itself."
        return Found(_place(first, first), first, says, "Take the step's own id out of its “after:”.")
    named = [step.called for step in ring[1:MOST_NAMED]]
    more = ["and so on round"] if len(ring) > MOST_NAMED else []
    chain = ", which comes after ".join([*named, *more, first.called])
    related = tuple(
        Related("The ring goes on here", _place(step, ring[(at + 2) % len(ring)])) for at, step in enumerate(ring[1:])
    )
    says = f"{_start(first)} comes after {chain}, again."
    return Found(_place(first, ring[1]), first, says, "Take one of these steps out of an “after:”.", related)


def _place(step: Step, other: Step) -> Place:
    return next((text.place for text in step.after if same_name(text.value) == same_name(other.id)), step.place)


def _start(step: Step) -> str:
    return f"{step.called[0].upper()}{step.called[1:]},"
