"""The text of a step gives one measure of an act, and leaves out another that the work has.

What it finds: a step that trims, grades, clips, notches, bastes, gathers, eases, hems or sews in passes, with several
measures of that act, whose text says some of them, and one of them nowhere.

Why it matters at the machine: who reads the step sews by its words alone. With one number said, all of them are taken
to be that.

Wrong:
    steps:
      - id: seams
        title: Join sides and shoulders
        work:
          - sew: [front.side, back.side]
          - trim: 3/8 in
          - sew: [front.shoulder, back.shoulder]
          - trim: 1/4 in
        text: Sew the sides, then the shoulders. Trim the allowances to 3/8 in.

Right:
    steps:
      - id: seams
        title: Join sides and shoulders
        work:
          - sew: [front.side, back.side]
          - trim: 3/8 in
          - sew: [front.shoulder, back.shoulder]
          - trim: 1/4 in
        text: Sew the sides, then the shoulders. Trim the side seams to 3/8 in and the shoulder seams to 1/4 in.

Source: our choice: a step that gives numbers gives all of one kind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.check.found import Found
from booklet.check.measures import among, option_of
from booklet.finding import Finding, Related
from booklet.length import find as measures_in
from booklet.model.pattern import Entry, Measured, Pattern, Step

LEVEL = "warning"
# Where one of these speaks of a step, one of its numbers is known to be wrong.
TOLD = frozenset(
    {"measure-disagrees", "measure-impossible", "hem-turns-differ", "casing-turns-differ", "french-arithmetic"}
)

# Where an act's distances stand.
_OPTIONS = {
    "trim": "main",
    "grade": "main",
    "clip": "main",
    "notch": "main",
    "baste": "at",
    "gather": "at",
    "ease": "at",
    "hem": "turns",
    "casing": "turns",
    "sew": "passes",
}


def find_last(pattern: Pattern, findings: Sequence[Finding]) -> Iterator[Found]:
    """findings: where a number of a step is told to be wrong, the one that it should be is not told again."""
    wrong = {finding.step for finding in findings if finding.rule in TOLD}
    for step in pattern.steps:
        if step.text is not None and step.id not in wrong:
            for operation in dict.fromkeys(entry.operation.name for entry in step.work):
                if operation in _OPTIONS:
                    yield from _half_said(pattern, step, operation)


def _half_said(pattern: Pattern, step: Step, operation: str) -> Iterator[Found]:
    entries = [entry for entry in step.work if entry.operation.name == operation]
    own = [(entry, each) for entry in entries for each in option_of(entry, _OPTIONS[operation])]
    if len({each.length for _, each in own}) < 2 or step.text is None:
        return
    said = {length for _, _, length in measures_in(step.text.value)}
    told = [(entry, each) for entry, each in own if among(each.length, said, pattern.house)]
    if not told:
        return
    for entry, each in own:
        if not among(each.length, said, pattern.house):
            yield _found(step, entry, each, told[0][1])


def _found(step: Step, entry: Entry, each: Measured, told: Measured) -> Found:
    return Found(
        each.place,
        step,
        f"This step has {each.length} here ({entry.operation.name}), and its text says {told.length}, "
        f"but not {each.length}.",
        f"Say {each.length} in the text as well, or write {told.length} here.",
        (Related(f"the work has {told.length} here", told.place),),
    )
