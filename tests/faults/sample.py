"""A sound pattern as the faults see it: its steps, its entries, its pieces, and where each stands."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Any, NamedTuple

from booklet.craft.load import operations
from booklet.finding import Place
from tests.faults.draft import Draft, Path_, plain, read
from tests.faults.garment import Sewn, sew

MEASURE = re.compile(r"(?<![\w/.])(?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|cm|mm|m|yd)(?!\w)")
HEAD = "pattern.yaml"


class StepAt(NamedTuple):
    """A step, and its path in the source."""

    number: int
    path: Path_
    data: dict[str, Any]

    @property
    def id(self) -> str:
        return str(self.data["id"])

    @property
    def text(self) -> str:
        return " ".join(str(self.data.get("text", "")).split())


class EntryAt(NamedTuple):
    """An entry of a step's work."""

    step: StepAt
    path: Path_
    data: dict[str, Any]
    operation: str

    @property
    def value(self) -> Any:
        return self.data[self.operation]


class Sample:
    def __init__(self, folder: Path) -> None:
        self.name = folder.name
        self.source = read(folder)
        self.plain: dict[str, Any] = {file: plain(tree) for file, tree in self.source.trees.items()}
        self._base = Draft(self.source)

    @property
    def head(self) -> dict[str, Any]:
        head: dict[str, Any] = self.plain[HEAD]
        return head

    @cached_property
    def steps(self) -> list[StepAt]:
        found: list[StepAt] = []
        for file, tree in self.plain.items():
            for index, data in enumerate(tree.get("steps", ())):
                found.append(StepAt(len(found), (file, "steps", index), data))
        return found

    @cached_property
    def entries(self) -> list[EntryAt]:
        rows = operations()
        return [
            EntryAt(step, (*step.path, "work", index), data, next(key for key in data if key in rows))
            for step in self.steps
            for index, data in enumerate(step.data.get("work", ()))
        ]

    def of(self, *names: str) -> Iterator[EntryAt]:
        return (entry for entry in self.entries if entry.operation in names)

    @cached_property
    def words(self) -> dict[str, set[str]]:
        """A view's letter, or a word under its `with:`, and the views that it means."""
        words: dict[str, set[str]] = {}
        for letter, view in self.head["views"].items():
            for word in (letter, *view.get("with", ())):
                words.setdefault(word, set()).add(letter)
        return words

    def views(self, data: dict[str, Any]) -> set[str]:
        """Which views a step, a piece or a notion is for."""
        every = set(self.head["views"])

        def meant(key: str) -> set[str]:
            value = data[key]
            named = value if isinstance(value, list) else [one.strip() for one in value.split(",")]
            return set().union(*(self.words[word] for word in named))

        views = meant("for") if "for" in data else every
        return views - meant("not for") if "not for" in data else views

    @cached_property
    def sewn(self) -> dict[str, Sewn]:
        """Every view, as the tests themselves understand it (garment.py)."""
        return {letter: sew(self, letter) for letter in self.head["views"]}

    def place(self, path: Path_) -> Place:
        return self._base.place(path)

    def piece_places(self, pieces: set[str]) -> tuple[Place, ...]:
        return tuple(self.place((HEAD, "pieces", piece)) for piece in sorted(pieces))


def leaves(value: Any, path: Path_ = ()) -> Iterator[tuple[Path_, str]]:
    """Every text in a value, with the path to it."""
    if isinstance(value, str):
        yield path, value
    elif isinstance(value, list):
        for index, one in enumerate(value):
            yield from leaves(one, (*path, index))
    else:
        for key, one in value.items():
            yield from leaves(one, (*path, key))
