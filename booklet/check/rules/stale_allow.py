"""An exception no longer excuses anything.

What it finds: an `allow:` on a step, a section or the pattern, whose rule finds nothing there in any view.

Why it matters at the machine: nothing is wrong yet. But the exception would hide the next slip of that kind, which
nobody meant to allow.

Wrong:
    steps:
      - id: mark
        title: Mark the front
        allow: {hem-too-early: the hem is faced}
        work: [{mark: front}]

Right:
    steps:
      - id: hem
        title: Hem
        allow: {hem-too-early: the sides are lapped over the hem}
        work: [{hem: [front.hem, back.hem], turns: [1/2 in, 1/2 in]}]
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Source: our choice: an exception stands only as long as what it excuses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.check.allowed import allows, nearest_allow, rule_of
from booklet.check.found import Found
from booklet.finding import Finding
from booklet.model.pattern import Pattern

LEVEL = "warning"
NEEDS_ALL_VIEWS = True
HERE = {"step": "on this step", "section": "in this section", "pattern": "in the rest of the pattern"}


def find_last(pattern: Pattern, findings: Sequence[Finding]) -> Iterator[Found]:
    from booklet.check.engine import rules

    steps = {step.id: step for step in pattern.steps}
    used = {id(allow) for finding in findings if (allow := nearest_allow(pattern, steps, finding))}
    for allow, where, step in allows(pattern):
        module = rules().get(rule_of(allow))
        if module is None or id(allow) in used or _comes_last(module):
            continue
        yield Found(
            allow.rule.place,
            step,
            f"“{rule_of(allow)}” has nothing left to excuse {HERE[where]}.",
            "Take the exception out.",
        )


def _comes_last(module: object) -> bool:
    """Its findings are not known yet when this rule looks: those of the film never are, in a check."""
    return hasattr(module, "find_last") or getattr(module, "FOUND_BY", "") == "recorded"
