"""All the prose of a pattern, for the rules that read it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Pattern, Step
    from booklet.read.tree import Text


def prose_of_step(step: Step) -> list[Text]:
    """What the sewer reads of a step, and what is said of it in the film."""
    says = [entry.says for entry in step.work]
    takes = [words for take in step.film for words in take.texts]
    return [text for text in (step.text, step.tip, step.caution, *says, *takes) if text is not None]


def prose_of(pattern: Pattern) -> Iterator[tuple[Text, Step | None]]:
    """Every text, with the step to which it belongs (None: the pattern or a section)."""
    heads = [pattern.about, pattern.before, pattern.choosing]
    heads += [view.about for view in pattern.views.values()]
    heads += [chart.note for chart in pattern.charts]
    heads += [material.suits for material in pattern.materials.values()]
    heads += [notion.note for notion in pattern.notions]
    heads += [meaning for _, meaning in pattern.terms]
    for text in heads:
        if text is not None:
            yield text, None
    for section in pattern.sections:
        if section.text is not None:
            yield section.text, None
        for step in section.steps:
            for text in prose_of_step(step):
                yield text, step
    for take in pattern.film.takes if pattern.film else ():
        for text in take.texts:
            if text is not None:
                yield text, None
