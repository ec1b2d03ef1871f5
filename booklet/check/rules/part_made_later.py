"""A step uses a part before the step that makes it.

What it finds: a name in `work` or `uses` that a later step of the same view `makes`.

Why it matters at the machine: the sewer looks for a collar that is still four pieces of cloth.

Wrong:
    steps:
      - {id: attach, title: Attach the facing, work: [{sew: [body.neckline, neck facing.neckline]}]}
      - id: shoulders
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]
        makes: body

Right:
    steps:
      - id: shoulders
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]
        makes: body
      - {id: attach, title: Attach the facing, work: [{sew: [body.neckline, neck facing.neckline]}]}

Source: published: the unit method of construction (as summarised by sewing-book texts): each unit is completed before
it is joined to another.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import made_late
from booklet.check.found import Found
from booklet.finding import Related
from booklet.model.pattern import Step
from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Missing

LEVEL = "error"
# How many steps does the sentence name? Our choice.
MOST_NAMED = 3


def find(bench: Bench) -> Iterator[Found]:
    for maker, users in made_late(bench).items():
        if len(users) > 1:
            yield _maker_late(maker, users)
        else:
            yield from (_user_early(bench, maker, step, uses[0]) for step, uses in users.items())


def _user_early(bench: Bench, maker: Step, step: Step, use: Missing) -> Found:
    if maker is step:
        return _first_maker(bench, step, use)
    return Found(
        use.place,
        step,
        f"“{use.written}” is used here, but it is made later, in {maker.called}.",
        f"Move {step.called}, to after {maker.called}.",
        (Related("It is made here", maker.place),),
        move=step,
    )


def _first_maker(bench: Bench, step: Step, use: Missing) -> Found:
    """The step works on what it makes, and no step has made it before: perhaps under a misspelt name."""
    name = use.written.split(".")[0].strip()
    others = [
        each.makes.value.strip()
        for each in bench.steps
        if each.makes and same_name(each.makes.value) != same_name(name)
    ]
    near = nearest(name, others)
    return Found(
        use.place,
        step,
        f"“{use.written}” is used here, but no step before this one makes {name}.",
        f"Did you mean “{near}”?" if near else f"Add “makes: {name}” to the step that first makes it.",
    )


def _maker_late(maker: Step, users: dict[Step, list[Missing]]) -> Found:
    """Where several steps wait for a part, it is the making that stands too late."""
    assert maker.makes is not None
    named = [step.called for step in users]
    more = [f"{len(named) - MOST_NAMED} more steps"] if len(named) > MOST_NAMED else []
    waiting = ", and ".join([*named[:MOST_NAMED], *more])
    return Found(
        maker.makes.place,
        maker,
        f"“{maker.makes.value.strip()}” is made too late: {waiting}, use it before.",
        f"Move {maker.called}, to before {named[0]}.",
        tuple(Related("It is used here", uses[0].place) for uses in users.values()),
        move=maker,
    )
