"""A seam is pressed in a direction that the pattern doesn't know.

What it finds: `press` with other words than open, as sewn, up, down or flat; and `toward` something that is no part,
piece, edge or notion of the pattern and no plain direction, such as the front or the centre.

Why it matters at the machine: the words are printed as they stand, and the sewer can't tell which way is meant.

Wrong:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: oepn}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}

Source: published: Oregon State Univ. Ext. 4-H 320-14 (2014), Pressing Skills: open, or to one side.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.meant import is_direction
from booklet.model.pattern import Pattern, Step
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name

LEVEL = "warning"
WAYS = ("open", "as sewn", "up", "down", "flat")
# What is said of an edge that is pressed up, to its wrong side.
FOLDED = frozenset({"under", "in", "to the wrong side"})


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    known: dict[str, str] = {}
    told: dict[str, bool] = {}
    for step in pattern.steps:
        for entry in step.work:
            if entry.name != "press" or entry.word is None or same_name(entry.word.value) in WAYS:
                continue
            known = known or _things(pattern)
            words = same_name(entry.word.value)
            if words not in told:
                # A part that other entries name as well is told as a part that is not there.
                told[words] = _leads_somewhere(words, known) or words.removeprefix("toward ") in _worked_on(pattern)
            if not told[words]:
                yield _found(step, entry.word, known)


def _things(pattern: Pattern) -> dict[str, str]:
    """Everything toward which a seam may be pressed, by its name as compared."""
    pieces = pattern.pieces.values()
    names = [piece.name for piece in pieces]
    names += [f"{piece.name} in {cut.material.value.strip()}" for piece in pieces for cut in piece.cuts[1:]]
    names += [edge.name for piece in pieces for edge in piece.edges.values()]
    names += [step.makes.value.strip() for step in pattern.steps if step.makes]
    names += [notion.item for notion in pattern.notions]
    return {same_name(name): name for name in names}


def _worked_on(pattern: Pattern) -> set[str]:
    """Every part that an entry works on, whether it is there or not."""
    entries = [entry for step in pattern.steps for entry in step.work]
    return {
        thing.part for entry in entries for thing in (*entry.things, *(name for side in entry.sides for name in side))
    }


def _leads_somewhere(words: str, known: dict[str, str]) -> bool:
    if not words.startswith("toward "):
        return False
    thing = words.removeprefix("toward ").removeprefix("the ")
    copy = thing.removeprefix("left ").removeprefix("right ")
    return copy in known or thing in known or is_direction(thing) or any(f" {thing} " in f" {name} " for name in known)


def _found(step: Step, word: Text, known: dict[str, str]) -> Found:
    words = same_name(word.value)
    if not words.startswith("toward "):
        near = "up" if words in FOLDED else nearest(words, WAYS)
        mend = f"Did you mean “{near}”?" if near else "Write open, as sewn, up, down, flat, or toward a part."
        return Found(word.place, step, f"“press” does not take “{word.value.strip()[:60]}”.", mend)
    thing = words.removeprefix("toward ").removeprefix("the ")
    near = nearest(thing, known.values())
    says = f"The press goes toward “{thing[:60]}”, and the pattern has nothing of that name."
    return Found(
        word.place, step, says, f"Did you mean “toward {near}”?" if near else "Name a part, a piece or an edge."
    )
