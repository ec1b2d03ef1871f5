"""A take names a set-up that film.yaml does not have.

What it finds: the `setup` of a take, where film.yaml lists its `setups` and none has that name.

Why it matters at the machine: a set-up misspelt is a set-up of its own in the shot list, and the camera is moved once
more for it.

Wrong:
    film.yaml:
        setups: {machine: Above the needle}
        takes:
          - {title: Welcome, when: first, setup: machne}

Right:
    film.yaml:
        setups: {machine: Above the needle}
        takes:
          - {title: Welcome, when: first, setup: machine}

Source: our choice: a name that the list does not have is a slip.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Pattern, Step, Take
from booklet.read.faults import nearest
from booklet.read.tree import same_name

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    film = pattern.film
    if film is None or not film.setups:
        return
    names = [" ".join(name.value.split()) for name, _ in film.setups.values()]
    takes: list[tuple[Take, Step | None]] = [(take, step) for step in pattern.steps for take in step.film]
    for take, step in [*takes, *((take, None) for take in film.takes)]:
        if take.setup is None or same_name(take.setup.value) in film.setups:
            continue
        name = " ".join(take.setup.value.split())[:60]
        near = nearest(name, names)
        mend = f"Did you mean “{near}”?" if near else f"Write one of {listed(names, 'or')}, or add it to the set-ups."
        yield Found(take.setup.place, step, f"“{name}” is no set-up of film.yaml.", mend)
