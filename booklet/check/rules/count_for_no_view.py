"""A number is given for a view that the pattern does not have.

What it finds: a view under `count`, `length` or `amounts` that is not one of the pattern's views, and a notion that
counts for a view which its `for` leaves out.

Why it matters at the machine: nobody is told the number, and the view that was meant goes without.

Wrong:
    notions:
      - {item: button, count: {A: 3, D: 4}}

Right:
    notions:
      - {item: button, count: {A: 3, B: 4}}

Source: our choice: a number that no output can print is a slip.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.locate import key_place
from booklet.finding import Place
from booklet.model.pattern import Entry, Notion, Pattern
from booklet.read.faults import nearest

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    for notion in pattern.notions:
        for letter in dict.fromkeys([*notion.count, *notion.length]):
            if letter and letter not in notion.scope.views:
                yield _of_notion(pattern, notion, letter)
    for material in pattern.materials.values():
        for width, rows in material.amounts:
            for letters, amounts in rows:
                for letter in letters:
                    if letter not in pattern.views:
                        place = amounts[0].place if amounts else width.place
                        yield _unknown(pattern, place, letter, f"the amounts of “{material.name}”")
    for step in pattern.steps:
        for entry in step.work:
            for place, letter in _counted(entry):
                if letter not in pattern.views:
                    yield _unknown(pattern, place, letter, "“count”")._replace(step=step)


def _counted(entry: Entry) -> Iterator[tuple[Place, str]]:
    given = entry.options.get("count")
    if given is not None and given[0]:
        for key, _ in given[1] or ():
            for letter in key.value.split(","):
                yield key.place, letter.strip()


def _of_notion(pattern: Pattern, notion: Notion, letter: str) -> Found:
    place = key_place(pattern, notion.place, letter)
    if letter in pattern.views:
        return Found(place, None, f"“{notion.item}” counts for view {letter}, and its “for” leaves that view out.",
                     f"Take {letter} out of the count, or let “for” have it.")  # fmt: skip
    return _unknown(pattern, place, letter, f"the count of “{notion.item}”")


def _unknown(pattern: Pattern, place: Place, letter: str, where: str) -> Found:
    near = nearest(letter, pattern.views)
    views = ", ".join(pattern.views)
    return Found(place, None, f"There is no view “{letter}”, which stands in {where}.",
                 f"Did you mean “{near}”?" if near else f"The views are {views}.")  # fmt: skip
