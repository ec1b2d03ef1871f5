"""Runs every rule over every view, says one cause once, and sets the writer's exceptions beside what they excuse."""

from __future__ import annotations

import os
from collections.abc import Iterable
from functools import cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from booklet.check.allowed import nearest_allow
from booklet.check.found import Found
from booklet.check.move import Budget, nearest_place
from booklet.finding import Finding, Related
from booklet.sew.view import sew_all

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from booklet.model.pattern import Pattern, Step
    from booklet.sew.bench import Bench
    from booklet.shape.measure import Measures


# The rules that look at a pattern and its benches; the pages of what earlier stages find; and of what the film shows.
_LOOKING, _EARLIER, _FILMED = "rules", "rules.earlier", "rules.filmed"


@cache
def _modules(package: str) -> dict[str, str]:
    """Every rule's name, with its module, found by looking into the folder."""
    folder = os.path.join(os.path.dirname(__file__), *package.split("."))
    stems = sorted(file[:-3] for file in os.listdir(folder) if file.endswith(".py") and file[0] != "_")
    return {stem.replace("_", "-"): f"booklet.check.{package}.{stem}" for stem in stems}


def rule_names() -> list[str]:
    return sorted([*_modules(_LOOKING), *_modules(_EARLIER), *_modules(_FILMED)])


@cache
def rules() -> dict[str, Any]:
    """Every rule by its name: those that look, and the pages of what other stages find."""
    pages = _modules(_EARLIER) | _modules(_FILMED)
    earlier = {rule: import_module(module) for rule, module in pages.items()}
    return dict(sorted((_looking() | earlier).items()))


@cache
def _looking() -> dict[str, Any]:
    """The rules that look at a pattern and its benches."""
    return {rule: import_module(module) for rule, module in _modules(_LOOKING).items()}


def level_of(rule: str) -> str:
    """`error` or `warning`."""
    level: str = _looking()[rule].LEVEL
    return level


def check(
    pattern: Pattern,
    views: Sequence[str] | None = None,
    shaped: Sequence[Finding] = (),
    measures: Measures | None = None,
) -> tuple[list[Finding], list[Bench]]:
    """Findings by their place in the source, allowed ones among them with the writer's reason; and the benches.

    `views` limits which views are sewn; rules about the source as a whole always look at all of it. shaped: what was
    found in the outlines, which the writer may have allowed too; measures: of the outlines, where there are any.
    """
    benches = sew_all(pattern, views)
    findings = [*with_reasons(pattern, list(shaped)), *found_on(pattern, benches, _of_the_source(pattern))]
    if measures is not None:
        findings += _measured(pattern, [bench for bench in benches if not bench.left_out], measures)
    sewn_in_full = views is None or set(views) >= set(pattern.views)
    last = [
        _finding(rule, item, ())
        for rule, module in _looking().items()
        if hasattr(module, "find_last") and (sewn_in_full or not getattr(module, "NEEDS_ALL_VIEWS", False))
        for item in module.find_last(pattern, findings)
    ]
    return in_order([*findings, *with_reasons(pattern, last)]), [bench for bench in benches if not bench.left_out]


def _of_the_source(pattern: Pattern) -> list[tuple[str, Found]]:
    return [
        (rule, item)
        for rule, module in _looking().items()
        if hasattr(module, "find_pattern")
        for item in module.find_pattern(pattern)
    ]


def found_on(pattern: Pattern, benches: Sequence[Bench], first: Iterable[tuple[str, Found]] = ()) -> list[Finding]:
    """What the rules find on some benches of a pattern, each cause once, with the writer's reasons; `first` before it.

    A view sewn without its optional steps comes after the same view in full, and adds only what that did not show.
    """
    merged: dict[tuple[Any, ...], tuple[str, Found, list[str]]] = {
        _key(rule, item): (rule, item, []) for rule, item in first
    }
    seen_in_full: set[tuple[Any, ...]] = set()
    budget = Budget()
    for bench in benches:
        for rule, item in _by_cause(bench, list(look(bench))):
            if bench.left_out:
                if (bench.view.letter, *spot(rule, item)) in seen_in_full:
                    continue
                item = _without(item, bench)
            else:
                seen_in_full.add((bench.view.letter, *spot(rule, item)))
            key = _key(rule, item)
            if key not in merged:
                merged[key] = (rule, _moved(rule, item, bench, budget), [])
            elif item.says != merged[key][1].says:
                merged[key] = (rule, _both(merged[key][1], item), merged[key][2])
            elif item.mend != merged[key][1].mend and item.cause:
                merged[key] = (rule, _and_there(merged[key][1], item, bench.view.letter), merged[key][2])
            if bench.view.letter not in merged[key][2]:
                merged[key][2].append(bench.view.letter)
    findings = [_finding(rule, item, tuple(letters)) for rule, item, letters in merged.values()]
    return with_reasons(pattern, findings)


def _by_cause(bench: Bench, found: list[tuple[str, Found]]) -> list[tuple[str, Found]]:
    """What is found, and of a step that comes too late one finding: an error before a warning, the first step first."""
    waiting: dict[str, list[tuple[str, Found]]] = {}
    for rule, item in found:
        if item.late is not None:
            waiting.setdefault(item.late.id, []).append((rule, item))
    if all(len(group) == 1 for group in waiting.values()):
        return found
    order = {step.id: at for at, step in enumerate(bench.steps)}
    first: dict[int, tuple[str, Found]] = {}
    for group in waiting.values():
        rule, item = min(
            group, key=lambda each: (level_of(each[0]) != "error", order.get(each[1].step.id, 0) if each[1].step else 0)
        )
        steps = {other.step.id for _, other in group if other.step is not None}
        others = [Related("It is amiss here too", other.place) for _, other in group if other.place != item.place]
        first[id(group[0][1])] = (
            rule,
            item._replace(
                related=tuple(dict.fromkeys((*item.related, *others))),
                move=item.late if len(steps) > 1 else item.move,
            ),
        )
    return [first.get(id(item), (rule, item)) for rule, item in found if item.late is None or id(item) in first]


def _measured(pattern: Pattern, benches: Sequence[Bench], measures: Measures) -> list[Finding]:
    """What the rules find that compare the bench with the outlines, each cause once."""
    merged: dict[tuple[Any, ...], tuple[str, Found, list[str]]] = {}
    for bench in benches:
        for rule, find in _on_paper().items():
            for item in find(bench, measures):
                letters = merged.setdefault(_key(rule, item), (rule, item, []))[2]
                if bench.view.letter not in letters:
                    letters.append(bench.view.letter)
    return with_reasons(pattern, [_finding(rule, item, tuple(letters)) for rule, item, letters in merged.values()])


@cache
def _on_paper() -> dict[str, Any]:
    """The rules that compare a bench with the outlines."""
    return {rule: module.find_measured for rule, module in _looking().items() if hasattr(module, "find_measured")}


def look(bench: Bench) -> Iterable[tuple[str, Found]]:
    """What the bench's rules find in one view. Each rule is asked only when it is reached."""
    for rule, find in _on_a_bench().items():
        for item in find(bench):
            yield rule, item


@cache
def _on_a_bench() -> dict[str, Callable[[Bench], Iterable[Found]]]:
    """The rules that look at one view's bench."""
    own = {rule: module for rule, module in _looking().items() if hasattr(module, "find")}
    return {rule: module.find for rule, module in own.items() if module.find.__module__ == module.__name__}


def in_order(findings: Iterable[Finding]) -> list[Finding]:
    """By place in the source: pattern.yaml first, then the sections as they are read."""
    return sorted(
        findings, key=lambda f: (f.place.file != "pattern.yaml", f.place.file, f.place.line, f.place.column, f.rule)
    )


def spot(rule: str, item: Found) -> tuple[Any, ...]:
    """What tells one fault from another when orders are compared: the rule, the place and the step."""
    return rule, item.place, item.step.id if item.step else None


def _key(rule: str, item: Found) -> tuple[Any, ...]:
    return (rule, item.cause) if item.cause else (*spot(rule, item), item.short or item.says)


def _both(one: Found, other: Found) -> Found:
    """The same fault in two views, of which each has another step to speak of."""
    return one._replace(says=one.short, related=tuple(dict.fromkeys((*one.related, *other.related))))


def _and_there(one: Found, other: Found, view: str) -> Found:
    """The same cause in another view, where another entry mends it."""
    return one._replace(
        mend=f"{one.mend} In view {view}: {other.mend[0].lower()}{other.mend[1:]}",
        related=tuple(dict.fromkeys((*one.related, *other.related))),
    )


def _without(item: Found, bench: Bench) -> Found:
    steps = [step for step in bench.pattern.steps if step.id in bench.left_out]
    named = " and ".join(step.called for step in steps)
    return item._replace(
        short="",
        says=f"When {named} is left out: {item.says[0].lower()}{item.says[1:]}"
        if len(steps) == 1
        else f"When {named} are left out: {item.says[0].lower()}{item.says[1:]}",
    )


def _moved(rule: str, item: Found, bench: Bench, budget: Budget) -> Found:
    if item.move is None:
        return item
    mend = nearest_place(bench, item.move, spot(rule, item), _spots, budget)
    return item._replace(mend=mend or item.mend)


def _spots(bench: Bench) -> set[tuple[Any, ...]]:
    return {spot(rule, item) for rule, item in look(bench)}


def _finding(rule: str, item: Found, views: tuple[str, ...]) -> Finding:
    step = item.step
    return Finding(
        rule, level_of(rule), views, step.id if step else None, item.place, item.says, item.mend, item.related
    )


def with_reasons(pattern: Pattern, findings: list[Finding]) -> list[Finding]:
    """Each finding with the reason of the nearest exception to its rule: its step's, its section's, the pattern's."""
    steps = {step.id: step for step in pattern.steps}
    return [_with_reason(pattern, steps, finding) for finding in findings]


def _with_reason(pattern: Pattern, steps: dict[str, Step], finding: Finding) -> Finding:
    allow = nearest_allow(pattern, steps, finding)
    return finding._replace(allowed=allow.reason.value) if allow else finding
