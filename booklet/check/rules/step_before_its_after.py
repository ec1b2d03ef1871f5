"""A step stands before one that it must come after.

What it finds: a step whose `after:` names a step that comes later in the same view. A named step that the view leaves
out is no matter.

Why it matters at the machine: the writer has said that the order matters, and the booklet has it the other way round.

Wrong:
    steps:
      - {id: hem, title: Hem, after: [fit], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - {id: fit, title: Try it on, work: [{try on: front}]}

Right:
    steps:
      - {id: fit, title: Try it on, work: [{try on: front}]}
      - {id: hem, title: Hem, after: [fit], work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Source: published: NMSU Guide C-314: fitted and finished before the hemline is marked. Such reasons do not show in the
parts.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import made_late, told
from booklet.check.found import Found
from booklet.check.ids import afters, by_id, rings
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Bench

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    if not any(step.after for step in bench.steps):
        return
    steps = by_id(bench.steps)
    in_a_ring = {name for ring in rings(afters(steps)) for name in ring}
    order = {step: at for at, step in enumerate(bench.steps)}
    for step in bench.steps:
        for text in step.after:
            name = same_name(text.value)
            first = steps.get(name)
            together = {name, same_name(step.id)} <= in_a_ring
            late = first is not None and not together and order[first] > order[step]
            # A first step that has to move up, to before those that use its part, may take this fault along.
            if first is not None and late and not told(bench, step) and len(made_late(bench).get(first, ())) < 2:
                yield Found(
                    text.place,
                    step,
                    f"This step says that it comes after {first.called}, but it stands before it.",
                    f"Move {step.called}, to after {first.called}.",
                    (Related("The other step stands here", first.place),),
                    move=step,
                )
