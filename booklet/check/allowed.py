"""The writer's exceptions: where each stands, and which one a finding falls under."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.finding import Finding
    from booklet.model.pattern import Allow, Pattern, Step


def allows(pattern: Pattern) -> Iterator[tuple[Allow, str, Step | None]]:
    """Every exception, with `pattern`, `section` or `step`, and the step it stands on."""
    yield from ((allow, "pattern", None) for allow in pattern.allow)
    for section in pattern.sections:
        yield from ((allow, "section", None) for allow in section.allow)
        for step in section.steps:
            yield from ((allow, "step", step) for allow in step.allow)


def rule_of(allow: Allow) -> str:
    """The name of the rule that it names: `edge left raw` is `edge-left-raw`."""
    return "-".join(allow.rule.value.lower().replace("-", " ").split())


def nearest_allow(pattern: Pattern, steps: dict[str, Step], finding: Finding) -> Allow | None:
    """The exception nearest to a finding that names its rule: its step's, its section's, the pattern's.

    steps: by id. An exception that excuses nothing can't itself be excused.
    """
    if finding.rule == "stale-allow":
        return None
    step = steps.get(finding.step or "")
    for given in (step.allow if step else (), step.section.allow if step else (), pattern.allow):
        for allow in given:
            if rule_of(allow) == finding.rule:
                return allow
    return None
