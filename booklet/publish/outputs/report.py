"""The report: what was found, what the writer allows and why, and what each view holds. No date stands in it."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from booklet.plan.naming import listed
from booklet.plan.write import one_line
from booklet.publish import text

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.finding import Finding
    from booklet.plan.plan import Plan
    from booklet.publish.edition import Edition

NAME = "report"

_LEVELS = {"error": "To mend", "warning": "To look at again"}
_INDENT = "  "


def files(edition: Edition) -> dict[str, bytes]:
    return {
        "report.txt": ("\n".join(_lines(edition)) + "\n").encode(),
        "report.json": (json.dumps(as_json(edition), ensure_ascii=False, indent=1) + "\n").encode(),
    }


def as_json(edition: Edition) -> dict[str, Any]:
    """`findings` are in the form of `check --json`; `allowed` are those with the writer's `reason`."""
    plan = edition.plan
    return {
        "pattern": edition.name,
        "title": plan.title,
        "edition": plan.edition,
        "draft": plan.draft,
        "views": [{"letter": letter, **counts} for letter, counts in _counts(edition).items()],
        "findings": [finding.as_json() for finding in _open(edition)],
        "allowed": [{**finding.as_json(), "reason": finding.allowed} for finding in _allowed(edition)],
    }


def _open(edition: Edition) -> list[Finding]:
    return [finding for finding in edition.findings if finding.allowed is None]


def _allowed(edition: Edition) -> list[Finding]:
    return [finding for finding in edition.findings if finding.allowed is not None]


def _counts(edition: Edition) -> dict[str, dict[str, int]]:
    """A finding that names no view holds for all of them."""
    plan, found = edition.plan, _open(edition)
    counts = {}
    for view in plan.views:
        mine = [finding for finding in found if not finding.views or view.letter in finding.views]
        counts[view.letter] = {
            "pieces": sum(view.letter in piece.views for piece in plan.pieces),
            "steps": sum(view.letter in step.views for step in plan.steps),
            "errors": sum(finding.level == "error" for finding in mine),
            "warnings": sum(finding.level == "warning" for finding in mine),
        }
    return counts


def _lines(edition: Edition) -> Iterator[str]:
    plan = edition.plan
    yield from text.wrap(f"{plan.title}, edition {plan.edition}{', draft' if plan.draft else ''}")
    yield ""
    yield from _table(_counts(edition))
    found, allowed = _open(edition), _allowed(edition)
    yield ""
    if not found:
        yield from text.wrap("Every view can be sewn as written. Nothing is left to mend.")
    for finding in found:
        yield from _finding(finding, plan)
        yield ""
    if allowed:
        yield from ([""] if not found else [])
        yield "Allowed by the writer"
        yield "---------------------"
        for finding in allowed:
            yield ""
            yield from _finding(finding, plan)


def _table(counts: dict[str, dict[str, int]]) -> Iterator[str]:
    names = ("pieces", "steps", "errors", "warnings")
    heads = [f"View {letter}" for letter in counts]
    yield f"{'':<10}{''.join(f'{head:>10}' for head in heads)}".rstrip()
    for name in names:
        yield f"{name.capitalize():<10}{''.join(f'{counts[letter][name]:>10}' for letter in counts)}"


def _finding(finding: Finding, plan: Plan) -> Iterator[str]:
    step = next((step for step in plan.steps if step.id == finding.step), None)
    head = [_LEVELS.get(finding.level, finding.level) if finding.allowed is None else finding.rule]
    if step is not None:
        head.append(f"step {step.number}, {step.title}")
    if finding.views and len(finding.views) < len(plan.all_views):
        head.append(_views(finding.views))
    yield from text.wrap(", ".join(head))
    yield from text.wrap(one_line(finding.says), _INDENT, _INDENT)
    if finding.allowed is None:
        yield from text.wrap(f"To mend: {one_line(finding.mend)}", _INDENT, _INDENT)
    else:
        yield from text.wrap(f"Reason: {one_line(finding.allowed)}", _INDENT, _INDENT)
    place = f"{finding.place.file}, line {finding.place.line}"
    yield from text.wrap(place if finding.allowed is not None else f"{place} ({finding.rule})", _INDENT, _INDENT)


def _views(letters: Sequence[str]) -> str:
    return f"view{'s' if len(letters) > 1 else ''} {listed(letters)}"
