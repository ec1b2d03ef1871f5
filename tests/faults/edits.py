"""The changes of which most faults are made, each as a function of the draft."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from booklet.read.tree import List
from tests.faults.draft import Draft, Path_

Edit = Callable[[Draft], object]


def put(path: Path_, value: Any) -> Edit:
    return partial(Draft.put, path=path, value=value)


def dropped(path: Path_) -> Edit:
    return partial(Draft.drop, path=path)


def inserted(path: Path_, value: Any) -> Edit:
    return partial(Draft.insert, path=path, value=value)


def doubled(path: Path_) -> Edit:
    """An item of a list, again beside itself."""
    return lambda draft: draft.insert(path, draft.get(path))


def renamed(path: Path_, name: str) -> Edit:
    return partial(Draft.rename, path=path, name=name)


def reordered(path: Path_, order: list[str]) -> Edit:
    return partial(Draft.reorder, path=path, order=order)


def turned_round(path: Path_) -> Edit:
    """A list from its end to its beginning, its items as they are."""

    def edit(draft: Draft) -> None:
        items = draft.get(path)
        assert isinstance(items, List)
        items.items.reverse()

    return edit
