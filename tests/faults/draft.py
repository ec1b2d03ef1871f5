"""A pattern's source as a tree that can be changed: one change makes one mutant, and nothing is parsed twice."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from booklet.check.engine import check
from booklet.finding import Finding, Place
from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern
from booklet.read.faults import Faults
from booklet.read.folder import Source, read_folder
from booklet.read.tree import List, Mapping, Node, Text
from booklet.shape.measure import Measures, measure
from booklet.shape.store import relevant

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = [
    *sorted(path.parent for path in (ROOT / "steps").glob("*/pattern.yaml")),
    *sorted(path.parent for path in (Path(__file__).parent / "patterns").glob("*/pattern.yaml")),
]

# From a file's name inward: keys of mappings and numbers of lists.
Path_ = tuple[str | int, ...]


def read(folder: Path) -> Source:
    """The source of a pattern; raises AssertionError where it can't be read."""
    faults = Faults()
    source = read_folder(folder, faults)
    assert not faults.findings, faults.findings
    return source


@cache
def measures_of(folder: Path) -> Measures | None:
    """What the outlines of a sound pattern measure; None where it has none."""
    return _measured(folder)[1]


@cache
def _measured(folder: Path) -> tuple[object, Measures | None]:
    """What measuring asks of a sound pattern, and what its outlines measure."""
    pattern = build_pattern(read(folder), Faults())
    assert pattern is not None
    return relevant(pattern), measure(pattern, Faults())


def plain(node: Node) -> Any:
    """The tree as texts, lists and dicts."""
    if isinstance(node, Text):
        return node.value
    if isinstance(node, List):
        return [plain(item) for item in node.items]
    return {key: plain(value) for key, (_, value) in node.entries.items()}


def _copy(node: Node) -> Node:
    if isinstance(node, Text):
        return node
    if isinstance(node, List):
        items = List(node.place)
        items.items = [_copy(item) for item in node.items]
        return items
    mapping = Mapping(node.place)
    mapping.entries = {name: (key, _copy(value)) for name, (key, value) in node.entries.items()}
    return mapping


def _made(value: Any, place: Place) -> Node:
    if isinstance(value, Text | List | Mapping):
        return value
    if isinstance(value, str):
        return Text(value, place)
    if isinstance(value, dict):
        mapping = Mapping(place)
        mapping.entries = {key: (Text(key, place), _made(one, place)) for key, one in value.items()}
        return mapping
    items = List(place)
    items.items = [_made(one, place) for one in value]
    return items


class Draft:
    """A copy of a source, to be changed. What is put in has the place of what stood there.

    measures: of its outlines, for the faults that lie in these; else they measure what the sound pattern's do, while
    what is asked of them is the same.
    """

    measures: Measures | None = None

    def __init__(self, source: Source) -> None:
        self.source = Source(source.folder, source.texts, {file: _copy(tree) for file, tree in source.trees.items()})  # type: ignore[misc]

    def get(self, path: Path_) -> Node:
        node: Node = self.source.trees[str(path[0])]
        for key in path[1:]:
            node = node.items[int(key)] if isinstance(node, List) else node.entries[str(key)][1]  # type: ignore[union-attr]
        return node

    def place(self, path: Path_) -> Place:
        """From the key, where there is one, to the end of its value."""
        value = self.get(path).place
        within = self.get(path[:-1]) if len(path) > 1 else None
        if not isinstance(within, Mapping):
            return value
        key = within.entries[str(path[-1])][0].place
        return Place(key.file, key.line, key.column, value.end_line, value.end_column)

    def put(self, path: Path_, value: Any) -> None:
        """In the place of what stands there; a key that is not there yet is added."""
        within, key = self.get(path[:-1]), path[-1]
        if isinstance(within, List):
            within.items[int(key)] = _made(value, within.items[int(key)].place)
            return
        assert isinstance(within, Mapping)
        old = within.entries.get(str(key))
        place = old[1].place if old else within.place
        within.entries[str(key)] = (old[0] if old else Text(str(key), place), _made(value, place))

    def drop(self, path: Path_) -> Node:
        within, key = self.get(path[:-1]), path[-1]
        if isinstance(within, List):
            return within.items.pop(int(key))
        assert isinstance(within, Mapping)
        return within.entries.pop(str(key))[1]

    def insert(self, path: Path_, value: Any) -> None:
        """Into a list, before the item that the path's last number counts."""
        within = self.get(path[:-1])
        assert isinstance(within, List)
        within.items.insert(int(path[-1]), _made(value, within.place))

    def rename(self, path: Path_, name: str) -> None:
        """A key, where it stands."""
        within, key = self.get(path[:-1]), str(path[-1])
        assert isinstance(within, Mapping)
        within.entries = {
            name if old == key else old: (Text(name, at.place) if old == key else at, value)
            for old, (at, value) in within.entries.items()
        }

    def reorder(self, path: Path_, order: list[str]) -> None:
        """The keys of a mapping."""
        within = self.get(path)
        assert isinstance(within, Mapping)
        within.entries = {key: within.entries[key] for key in order}

    def findings(self) -> list[Finding]:
        """Everything found, less what the writer has allowed."""
        faults = Faults()
        pattern = build_pattern(self.source, faults)
        found = list(faults.findings)
        if pattern is not None:
            found += check(pattern, measures=self.measures or self._as_they_were(pattern))[0]
        return [finding for finding in found if finding.allowed is None]

    def _as_they_were(self, pattern: Pattern) -> Measures | None:
        if not pattern.outlines:
            return None
        asked, measures = _measured(Path(self.source.folder))
        if measures is None or asked != relevant(pattern):
            return None
        own = Measures.__new__(Measures)
        own.__dict__.update(measures.__dict__, known={})
        return own
