"""An exception names a rule that doesn't exist.

What it finds: a name under `allow:` that is not the name of a rule.

Why it matters at the machine: the exception does nothing, and the writer may think a check is silenced that is not.

Wrong:
    steps:
      - id: hem
        title: Hem the front
        allow: {hem-turn-differ: the hem is cut to length first}
        work: [{hem: front.hem, turns: 1/2 in}]

Right:
    steps:
      - id: hem
        title: Hem the front
        allow: {hem-turns-differ: the hem is cut to length first}
        work: [{hem: front.hem, turns: 1/2 in}]

Source: our choice: an exception is said by the name that the finding prints.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.allowed import allows, rule_of
from booklet.check.found import Found
from booklet.model.pattern import Pattern
from booklet.read.faults import nearest

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    from booklet.check.engine import rule_names

    known = rule_names()
    for allow, _, step in allows(pattern):
        if rule_of(allow) not in known:
            near = nearest(rule_of(allow), known)
            yield Found(
                allow.rule.place,
                step,
                f"“{allow.rule.value.strip()[:60]}” is not the name of a rule, so this exception does nothing.",
                f"Did you mean “{near}”?" if near else "Write the name that stands beside the finding.",
            )
