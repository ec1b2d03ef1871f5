"""One file of the source: its text becomes a located tree, or findings that say why not."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

import yaml

from booklet.finding import Place, Related
from booklet.read.tree import List, Mapping, Node, Text, same_name

if TYPE_CHECKING:
    from booklet.read.faults import Faults

# How deep may a value stand? The source's own language needs eight. Our choice, so that a hostile file stops early.
DEEPEST = 32

_Loader: Any = getattr(yaml, "CLoader", yaml.Loader)
_TOO_DEEP = (
    "Values stand inside one another too deeply here.",
    "The deepest that a pattern needs is eight; look for brackets that never close.",
)
_TAB = re.compile(r"^ *\t", re.MULTILINE)
_BREAKS = re.compile(r"\n+(?!\Z)")


def read_document(name: str, text: str, faults: Faults) -> Node | None:
    """The tree of one file, or None with the reason among the faults. `name` is what findings call the file."""
    tab = _TAB.search(text)
    if tab:
        line = text.count("\n", 0, tab.end()) + 1
        column = tab.end() - text.rfind("\n", 0, tab.end()) - 1
        place = Place(name, line, column, line, column + 1)
        faults.unreadable(
            "tab-in-indent", place, "This line begins with a tab.", "Write blanks instead: two for each step inward."
        )
        return None
    try:
        return _Builder(name, faults).build(yaml.parse(text, Loader=_Loader))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (1, 1)
        place = Place(name, line, column, line, column + 1)
        if "nesting" in str(error.problem):
            faults.unreadable("nested-too-deep", place, *_TOO_DEEP)
            return None
        faults.unreadable(
            "not-yaml",
            place,
            f"This can't be read as YAML from here on: {_plain(error)}.",
            "Look for a missing colon, quote or bracket in this line or the one above it; "
            "text that has a colon in it goes in quotes or after “>”.",
        )
    except yaml.YAMLError as error:
        place = Place(name, 1, 1, 1, 1)
        faults.unreadable(
            "not-yaml",
            place,
            f"This file can't be read: {str(error).splitlines()[0]}.",
            "Look for a character that does not print, and delete it.",
        )
    except _Stop:
        pass
    return None


def _plain(error: yaml.MarkedYAMLError) -> str:
    return " ".join(str(error.problem or error.context or "something is missing").split())


def _with_paragraphs(event: Any) -> str:
    """Where YAML folds lines (after “>”, in quotes), a break that is left was a blank line: it parts paragraphs."""
    value: str = event.value
    return value if event.style == "|" or "\n" not in value else _BREAKS.sub("\n\n", value)


class _Stop(Exception):
    """The rest of this file is of no use; the fault has been said."""


class _Builder:
    """Events to nodes, on a stack of our own: depth is bounded, aliases and tags are never followed."""

    def __init__(self, name: str, faults: Faults) -> None:
        self.name = name
        self.faults = faults
        self.root: Node | None = None
        self.here: List | Mapping | None = None
        self.key: Text | None = None
        self.stack: list[List | Mapping | None] = []
        self.documents = 0

    def build(self, events: Any) -> Node | None:
        take = {
            yaml.ScalarEvent: self._scalar,
            yaml.MappingStartEvent: self._begin,
            yaml.SequenceStartEvent: self._begin,
            yaml.MappingEndEvent: self._end,
            yaml.SequenceEndEvent: self._end,
            yaml.AliasEvent: self._alias,
            yaml.DocumentStartEvent: self._document,
        }
        for event in events:
            taken = take.get(type(event))
            if taken is not None:
                taken(event)
        return self.root

    def _scalar(self, event: Any) -> None:
        node = Text(_with_paragraphs(event), self._place(event))
        if event.anchor or event.tag:
            self._refuse_magic(event, node)
        here = self.here
        if type(here) is Mapping and self.key is None:
            self.key = node
        else:
            self._put(node)

    def _begin(self, event: Any) -> None:
        node: List | Mapping = (Mapping if type(event) is yaml.MappingStartEvent else List)(self._place(event))
        if event.anchor or event.tag:
            self._refuse_magic(event, node)
        if len(self.stack) >= DEEPEST:
            self._stop("nested-too-deep", node.place, *_TOO_DEEP)
        if type(self.here) is Mapping and self.key is None:
            self._stop(
                "not-yaml",
                node.place,
                "A key must be words, not a list or a mapping.",
                "Put words before the colon, or quotes round the whole.",
            )
        self._put(node)
        self.stack.append(self.here)
        self.here = node

    def _end(self, event: Any) -> None:
        assert self.here is not None
        start, end = self.here.place, event.end_mark
        self.here.place = Place(self.name, start.line, start.column, end.line + 1, end.column + 1)
        self.here = self.stack.pop()

    def _alias(self, event: Any) -> None:
        self._stop(
            "alias-not-read",
            self._place(event),
            f"“*{event.anchor}” points at another place in the file.",
            "Write the text out where it is needed; the source has no anchors or aliases.",
        )

    def _document(self, event: Any) -> None:
        self.documents += 1
        if self.documents > 1:
            self._stop(
                "not-yaml",
                self._place(event),
                "A second document begins here, after “---”.",
                "Put it in a file of its own.",
            )

    def _put(self, node: Node) -> None:
        """Where it belongs: the value of the key before it, the next of a list, or the whole."""
        here = self.here
        if here is None:
            self.root = node
        elif type(here) is List:
            here.items.append(node)
        elif type(here) is Mapping and self.key is not None:
            self._enter(here, self.key, node)
            self.key = None

    def _enter(self, mapping: Mapping, key: Text, node: Node) -> None:
        name = same_name(key.value)
        if name in mapping.entries:
            first = mapping.entries[name][0]
            self.faults.add(
                "repeated-key",
                key.place,
                f"“{key.value}” is written twice here; only the first, in line {first.place.line}, would count.",
                "Keep one of the two.",
                related=(Related("It stands here already", first.place),),
            )
            return
        mapping.entries[name] = (key, node)

    def _refuse_magic(self, event: Any, node: Node) -> None:
        if event.anchor:
            self.faults.add(
                "alias-not-read",
                node.place,
                f"“&{event.anchor}” gives this place a name.",
                f"Delete “&{event.anchor}”; the source has no anchors or aliases.",
            )
        if event.tag:
            self.faults.add(
                "tag-not-read",
                node.place,
                f"“{event.tag}” is a YAML tag; the source is plain text and no tag is followed.",
                "Delete it, or put the whole text in quotes if it is part of your words.",
            )

    def _stop(self, rule: str, place: Place, says: str, mend: str) -> None:
        self.faults.unreadable(rule, place, says, mend)
        raise _Stop

    def _place(self, event: Any) -> Place:
        start, end = event.start_mark, event.end_mark
        return Place(self.name, start.line + 1, start.column + 1, end.line + 1, end.column + 1)
