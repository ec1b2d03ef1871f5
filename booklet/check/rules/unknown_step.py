"""A step is spoken of that the pattern doesn't have.

What it finds: an id under `after:`, in `{step: …}` in any text, or in the `when:` or `needs:` of a take in film.yaml
that belongs to no step of the pattern.

Why it matters at the machine: the booklet can't print the number of the step, and the sewer can't turn back to it.

Wrong:
    steps:
      - {id: hem, title: Hem, after: [sides], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: side, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: hem, title: Hem, after: [side], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Source: our choice: a number that can't be printed is a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.ids import by_id
from booklet.check.locate import place_of
from booklet.check.prose import prose_of
from booklet.check.words import listed
from booklet.finding import Place
from booklet.model.pattern import Pattern, Step
from booklet.read.faults import nearest
from booklet.read.tree import same_name

LEVEL = "error"
_NAMED = re.compile(r"\{\s*step\s*:([^{}]*)\}", re.IGNORECASE)
_WHEN = re.compile(r"(?:before|after)\s+(?P<step>\S.*)\Z", re.IGNORECASE | re.DOTALL)


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    steps = by_id(pattern.steps)
    ids = [step.id for step in steps.values()]
    for step in pattern.steps:
        for text in step.after:
            if same_name(text.value) not in steps:
                yield _found(text.place, step, "“after”", text.value, ids)
    for text, here in prose_of(pattern):
        seen: dict[str, int] = {}
        for match in _NAMED.finditer(text.value) if "{" in text.value else ():
            nth = seen[match.group()] = seen.get(match.group(), -1) + 1
            if same_name(match[1]) not in steps:
                yield _found(place_of(pattern, text, match.group(), nth), here, "The text", match[1], ids)
    for take in pattern.film.takes if pattern.film else ():
        if take.when is not None and same_name(take.when.value) not in ("first", "last"):
            when = _WHEN.match(take.when.value.strip())
            if when is None:
                says = f"“when” does not take “{take.when.value.strip()[:60]}”."
                yield Found(take.when.place, None, says, "Write first, last, before STEP or after STEP.")
            elif same_name(when["step"]) not in steps:
                yield _found(take.when.place, None, "“when”", when["step"], ids)
        if take.needs is not None and same_name(take.needs.value) not in ("nothing", "finished", *steps):
            yield _found(take.needs.place, None, "“needs”", take.needs.value, [*ids, "nothing", "finished"])


def _found(place: Place, step: Step | None, what: str, name: str, ids: list[str]) -> Found:
    name = " ".join(name.split())[:60]
    near = nearest(name, ids)
    mend = f"Did you mean “{near}”?" if near else f"Write the id of a step: {listed(ids, 'or')}."
    return Found(place, step, f"{what} speaks of the step “{name}”, and there is no such step.", mend)
