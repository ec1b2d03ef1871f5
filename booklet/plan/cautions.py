"""What can hurt, and where that is said: once in the front of the booklet, and at the first step that works with it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from booklet.craft.load import table
from booklet.plan.plan import Caution
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern, Step
    from booklet.plan.write import Writer
    from booklet.sew.bench import Bench

# The head of a caution that the writer gives.
OWN = "Take care."


def step_cautions(pattern: Pattern, benches: Sequence[Bench], writer: Writer) -> dict[str, tuple[Caution, ...]]:
    """By the step's id: the writer's own, and each hazard where one of the views meets it for the first time.

    So the reader of each view finds it before the work, and a step says the same in every output.
    """
    seen: dict[str, set[str]] = {bench.view.letter: set() for bench in benches}
    cautions: dict[str, tuple[Caution, ...]] = {}
    for step in pattern.steps:
        new: dict[str, None] = {}
        hazards = _step_hazards(pattern, step)
        for letter in seen.keys() & set(step.scope.views):
            new |= dict.fromkeys(hazard for hazard in hazards if hazard not in seen[letter])
            seen[letter] |= set(hazards)
        found = [_caution(hazard, writer) for hazard in hazards if hazard in new]
        if step.caution is not None:
            found.append(Caution(OWN, writer.prose(step.caution)))
        if found:
            cautions[step.id] = tuple(found)
    return cautions


def general_cautions(pattern: Pattern, views: tuple[str, ...], words: str, writer: Writer) -> list[Caution]:
    """For the front: every hazard of these views' operations, tools, notions and words. words: the plan's prose."""
    steps = [step for step in pattern.steps if set(step.scope.views) & set(views)]
    tools = {name for step in steps for entry in step.work for name in (entry.operation.tool, entry.operation.hazard)}
    notions = [notion.key for notion in pattern.notions if set(notion.scope.views) & set(views)]
    listed = " \n".join([*(tool.value for tool in pattern.tools), *notions, words]).lower()
    return [
        _caution(name, writer)
        for name, row in table("cautions").items()
        if _is_of_age(pattern, row) and _is_met(row, tools, notions, listed)
    ]


def _is_met(row: dict[str, Any], tools: set[str], notions: Iterable[str], words: str) -> bool:
    when = row.get("when")
    if when is None:
        return True
    return (
        bool(tools & set(when.get("tools", ())))
        or any(_has_word(words, word) for word in when.get("words", ()))
        or any(_has_word(notion, word) for notion in notions for word in when.get("notions", ()))
    )


def _step_hazards(pattern: Pattern, step: Step) -> list[str]:
    rows = table("cautions")
    found: dict[str, None] = {}
    for entry in step.work:
        for hazard in (entry.operation.hazard, entry.operation.tool):
            if hazard in rows and rows[hazard].get("step") == "true":
                found[hazard] = None
        used = [same_name(entry.word.value)] if entry.operation.takes == "notion" and entry.word else []
        notion = entry.options.get("notion")
        used += [same_name(notion.value)] if notion is not None and entry.name != "buttonhole" else []
        used += [entry.name] if notion is None and entry.operation.bench == "fasten" else []
        for name, row in rows.items():
            wanted = row.get("when", {}).get("notions", ())
            if any(_has_word(thing, word) for thing in used for word in wanted) and _is_of_age(pattern, row):
                found[name] = None
    return list(found)


def _is_of_age(pattern: Pattern, row: dict[str, Any]) -> bool:
    if "ages" not in row:
        return True
    youngest, oldest = (int(age) for age in row["ages"])
    return pattern.ages is not None and pattern.ages[0] <= oldest and pattern.ages[1] >= youngest


def _has_word(text: str, word: str) -> bool:
    return re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text) is not None


def _caution(name: str, writer: Writer) -> Caution:
    row = table("cautions")[name]
    return Caution(row["hazard"], writer.line(row["says"]))
