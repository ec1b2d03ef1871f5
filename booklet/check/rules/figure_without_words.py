"""A drawing has no words for a reader who can't see it.

What it finds: a `figure` of a step or a view without `shows`.

Why it matters at the machine: who has the booklet read aloud, or a page on which the picture did not load, is told
nothing.

Wrong:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: art/front.svg}
      B: {name: Sleeved vest, with: [sleeves]}

Right:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/front.svg, shows: The vest from the front}}
      B: {name: Sleeved vest, with: [sleeves]}

Source: standard: WCAG 2.2, success criterion 1.1.1 (level A).
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.model.pattern import ArtFile, Pattern, Step

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for view in pattern.views.values():
        if view.figure is not None and view.figure.shows is None:
            yield _found(view.figure, None)
    for step in pattern.steps:
        if step.figure is not None and step.figure.shows is None:
            yield _found(step.figure, step)


def _found(figure: ArtFile, step: Step | None) -> Found:
    name = figure.file.value.strip()
    return Found(
        figure.file.place,
        step,
        f"The drawing “{name}” has no words for a reader who can't see it.",
        f"Write “figure: {{file: {name}, shows: …}}”, with a few words on what it shows.",
    )
