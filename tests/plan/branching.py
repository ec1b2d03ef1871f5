"""Views side by side, planned by hand: a step is the letters of the views that sew it, a bar begins a section."""

from __future__ import annotations

from booklet.plan.branches import branches_of
from booklet.plan.plan import Branches, PlanSection, PlanStep, PlanView


def sections(steps: str, letters: tuple[str, ...]) -> list[PlanSection]:
    """`AB A | *`: two steps and, in a second section, one for all views."""
    number, made = 0, []
    for place, words in enumerate(steps.split("|"), 1):
        items: list[PlanStep] = []
        for word in words.split():
            number += 1
            views = letters if word == "*" else tuple(letter for letter in letters if letter in word.split("+"))
            views = views or tuple(letter for letter in letters if letter in word)
            title = f"Sew the seam of the part {number}"
            items.append(PlanStep(number, f"s{number}", title, views, views == letters, False, ()))
        made.append(PlanSection(f"The work of part {place}", (), list(items)))
    return made


def branches(steps: str, letters: tuple[str, ...] = ("A", "B", "C")) -> Branches:
    made = branches_of([PlanView(letter, f"View {letter}", (), None) for letter in letters], sections(steps, letters))
    assert made is not None
    return made
