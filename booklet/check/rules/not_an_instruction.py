"""A step has work to do, and its text tells nobody to do anything.

What it finds: the text of a step with `work` in which not one word is a verb that hands can follow (sew, pin, fold,
lay, press …, a list in craft/imperatives.yaml). Where most texts of a pattern have none, it is written in another
language, and nothing is found.

Why it matters at the machine: the sewer reads what the garment is like, and not what to do now.

Wrong:
    steps:
      - {id: a, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}], text: Sew the shoulders.}
      - {id: b, title: The sides, work: [{sew: [front.side, back.side]}], text: The sides are straight.}

Right:
    steps:
      - {id: a, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}], text: Sew the shoulders.}
      - {id: b, title: The sides, work: [{sew: [front.side, back.side]}], text: The sides are straight. Sew them.}

Source: published: Federal Plain Language Guidelines (2011): speak to the reader, in the active voice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.craft.load import table
from booklet.model.pattern import Pattern

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    steps = [step for step in pattern.steps if step.work and step.text is not None]
    if not steps:
        return
    verbs = frozenset(table("imperatives")["verbs"]["words"])
    mute = [step for step in steps if step.text and verbs.isdisjoint(_words(step.text.value))]
    if 2 * len(mute) > len(steps):
        return
    for step in mute:
        assert step.text is not None
        yield Found(
            step.text.place,
            step,
            "The text tells what is so, and not what to do.",
            f"Say what the hands do, beginning with the verb: “{_first(step.work[0].name)} …”.",
        )


def _words(text: str) -> list[str]:
    return [word.strip(".,;:!?()[]“”\"'*—–") for word in text.lower().replace("-", " ").split()]


def _first(operation: str) -> str:
    return operation[:1].upper() + operation[1:]
