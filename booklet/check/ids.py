"""Steps by their ids, for the rules that follow one step's name to another."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.model.pattern import Step


def by_id(steps: Iterable[Step]) -> dict[str, Step]:
    """The first step of each id, compared without regard to case and doubled blanks."""
    found: dict[str, Step] = {}
    for step in steps:
        found.setdefault(same_name(step.id), step)
    return found


def afters(steps: dict[str, Step]) -> dict[str, list[str]]:
    """By id, the ids of the steps that its `after` names, unknown ones left out."""
    found: dict[str, list[str]] = {}
    for name, step in steps.items():
        named = (same_name(text.value) for text in step.after)
        found[name] = [other for other in named if other in steps]
    return found


def rings(after: dict[str, list[str]]) -> list[list[str]]:
    """The groups of ids that wait for one another, each as a ring in walking order. Waiting for oneself is a ring too.

    Tarjan's algorithm on a stack of our own, so that ten thousand steps in a row are no matter.
    """
    order = {name: at for at, name in enumerate(after)}
    looped = [group for group in _components(after) if len(group) > 1 or group[0] in after[group[0]]]
    return [_walk(after, set(group), min(group, key=order.__getitem__)) for group in looped]


def _walk(after: dict[str, list[str]], members: set[str], start: str) -> list[str]:
    """A shortest ring through `start`, by breadth."""
    came: dict[str, str] = {}
    row = [start]
    while row:
        coming = []
        for name in row:
            for other in after[name]:
                if other == start:
                    ring = [name]
                    while ring[-1] != start:
                        ring.append(came[ring[-1]])
                    return ring[::-1]
                if other in members and other not in came:
                    came[other] = name
                    coming.append(other)
        row = coming
    return [start]


def _components(after: dict[str, list[str]]) -> list[list[str]]:
    number: dict[str, int] = {}
    low: dict[str, int] = {}
    held: list[str] = []
    waiting: set[str] = set()
    found: list[list[str]] = []
    for root in after:
        if root in number:
            continue
        stack = [(root, iter(after[root]))]
        number[root] = low[root] = len(number)
        held.append(root)
        waiting.add(root)
        while stack:
            name, others = stack[-1]
            for other in others:
                if other not in number:
                    number[other] = low[other] = len(number)
                    held.append(other)
                    waiting.add(other)
                    stack.append((other, iter(after[other])))
                    break
                if other in waiting:
                    low[name] = min(low[name], number[other])
            else:
                stack.pop()
                if stack:
                    low[stack[-1][0]] = min(low[stack[-1][0]], low[name])
                if low[name] == number[name]:
                    group = [held.pop()]
                    while group[-1] != name:
                        group.append(held.pop())
                    waiting.difference_update(group)
                    found.append(group)
    return found
