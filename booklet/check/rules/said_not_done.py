"""The text of a step gives the measure of an act that its work does not have.

What it finds: a step with work whose text trims, grades, clips, notches, bastes or staystitches at a measure, where no
entry of that work, and none that makes a seam with a trimming of its own, does anything of the kind.

Why it matters at the machine: nothing is checked of what only the words do, no figure shows it, and the step list
passes over it. A French seam that is trimmed in words alone shows its edges on the right side.

Wrong:
    steps:
      - id: sides
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        text: Sew the sides. Trim the allowances to 1/4 in.

Right:
    steps:
      - id: sides
        title: Join the sides
        work: [{sew: [front.side, back.side]}, {trim: 1/4 in}]
        text: Sew the sides. Trim the allowances to 1/4 in.

Source: our choice: the work says what is done, and the words tell it.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import by_step
from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.measures import all_of, among
from booklet.check.numbers import beyond
from booklet.check.saying import said_in
from booklet.craft.load import table
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    acts = by_step(bench)
    for step in bench.steps:
        own = acts.get(step.id)
        if own is None or step.text is None or any(act.broken for act in own):
            continue
        for said in said_in(step.text.value):
            verb = table("sayings")["verbs"][said.verb]
            if "exact" not in verb or beyond(verb.get("most", ""), said.length):
                continue
            if any(_may_do(act, verb["means"]) for act in own) or among(
                said.length, all_of(own, bench), bench.pattern.house
            ):
                continue
            nth = step.text.value.count(said.measure, 0, said.start)
            yield Found(
                place_of(bench.pattern, step.text, said.measure, nth),
                step,
                f"The text says “{said.verb} … {said.phrase}”, and no work of this step does.",
                f"Add “{next(iter(verb['means']))}” to the work, or take it out of the text.",
            )


def _may_do(act: Act, means: dict[str, list[str]]) -> bool:
    """Whether an act is of the kind; a seam only where it says the measure."""
    return act.name in means and (act.name != "sew" or any(option in act.entry.options for option in means["sew"]))
