"""The words that outputs put round the writer's own: heads, and the few sentences that every output owes its reader."""

from __future__ import annotations

from collections.abc import Sequence

UNITS = {"in": "inches", "cm": "centimetres", "mm": "millimetres", "yd": "yards", "m": "metres"}

# Who is to be followed when directions differ? Common practice, no source.
MAKERS_FIRST = (
    "For your machine, iron, cutters, needles, fabric and notions, the directions of their makers come first, "
    "and so do the rules of the place where you sew or sell."
)
SCOPE = f"This booklet tells you in which order to sew and how. {MAKERS_FIRST}"
# Common practice, no source.
FILM_CARE = (
    "Switch the machine off and set the iron down before anyone reaches over the work to move a camera or a lamp. "
    "Tape cables down where people walk, and keep them off the pedal and away from the iron’s cord."
)
MARKS = (
    "The squares under a step’s number stand for the views, always in this order. Sew the step when your view’s square "
    "is filled; leave it out when the square is open. A step has the same number in every view."
)
LEFT_OUT = "A step has the same number in every view, so the numbers of steps that belong to other views are left out."
DRAFT = "Draft"
DRAFT_NOTE = "This is a draft: it has been printed with mistakes that were found and not yet mended. Don’t sew from it."


def size_range(sizes: Sequence[str]) -> str:
    """`Sizes 6 to 14`, `Size 12`, or nothing."""
    if len(sizes) > 1:
        return f"Sizes {sizes[0]} to {sizes[-1]}"
    return f"Size {sizes[0]}" if sizes else ""


def step_range(numbers: Sequence[int]) -> str:
    """`Steps 1 to 6`, `Step 7`, or nothing."""
    if len(numbers) > 1:
        return f"Steps {numbers[0]} to {numbers[-1]}"
    return f"Step {numbers[0]}" if numbers else ""
