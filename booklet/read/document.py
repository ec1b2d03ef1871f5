"""One file of the source: its text becomes a located tree, or findings that say why not."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any, NoReturn

import yaml

from booklet.finding import Place, Related
from booklet.read.tree import List, Mapping, Node, Text, same_name

if TYPE_CHECKING:
    from collections.abc import Callable

    from booklet.read.faults import Faults

# How deep may a value stand? The source's own language needs eight. Our choice, so that a hostile file stops early.
DEEPEST = 32

_Loader: Any = getattr(yaml, "CLoader", yaml.Loader)
_Scalar = yaml.ScalarEvent
_TOO_DEEP = (
    "Values stand inside one another too deeply here.",
    "The deepest that a pattern needs is eight; look for brackets that never close.",
)
_TAB = re.compile(r"^ *\t", re.MULTILINE)
_BREAKS = re.compile(r"\n+(?!\Z)")


def read_document(name: str, text: str, faults: Faults) -> Node | None:
    """The tree of one file, or None with the reason among the faults. `name` is what findings call the file."""
    tab = _TAB.search(text) if "\t" in text else None
    if tab:
        line = text.count("\n", 0, tab.end()) + 1
        column = tab.end() - text.rfind("\n", 0, tab.end()) - 1
        place = Place(name, line, column, line, column + 1)
        faults.unreadable(
            "tab-in-indent", place, "This line begins with a tab.", "Write blanks instead: two for each step inward."
        )
        return None
    try:
        return _Builder(name, faults).build(_Loader(text))
    except yaml.MarkedYAMLError as error:
        from booklet.read.slips import slip_of

        line, column, says, mend = slip_of(error, text)
        place = Place(name, line, column, line, column + 1)
        if "nesting" in str(error.problem):
            faults.unreadable("nested-too-deep", place, *_TOO_DEEP)
            return None
        faults.unreadable("not-yaml", place, says, mend)
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


def _with_paragraphs(event: Any) -> str:
    """Where YAML folds lines (after “>”, in quotes), a break that is left was a blank line: it parts paragraphs."""
    value: str = event.value
    return value if event.style == "|" else _BREAKS.sub("\n\n", value)


class _Stop(Exception):
    """The rest of this file is of no use; the fault has been said."""


class _Builder:
    """Events to nodes. Depth is bounded, aliases and tags are never followed."""

    def __init__(self, name: str, faults: Faults) -> None:
        self.name = name
        self.faults = faults

    def build(self, parser: Any) -> Node | None:
        """The root of the only document. `parser` gives events one by one, and None after the last."""
        self.next: Callable[[], Any] = parser.get_event
        root: Node | None = None
        documents = 0
        while (event := self.next()) is not None:
            if type(event) is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    self._second_document(event)
                root = self._node(self.next(), 0)
        return root

    def _node(self, event: Any, depth: int) -> Node:
        """The value that begins with `event`, in so many others."""
        kind = type(event)
        if kind is _Scalar:
            return self._text(event)
        if kind is yaml.AliasEvent:
            self._alias(event)
        node: List | Mapping = (Mapping if kind is yaml.MappingStartEvent else List)(self._place(event))
        if event.anchor or event.tag:
            self._refuse_magic(event, node)
        if depth >= DEEPEST:
            self._stop("nested-too-deep", node.place, *_TOO_DEEP)
        end = self._fill_mapping(node, depth + 1) if isinstance(node, Mapping) else self._fill_list(node, depth + 1)
        start, end = node.place, end.end_mark
        node.place = Place(self.name, start.line, start.column, end.line + 1, end.column + 1)
        return node

    def _text(self, event: Any) -> Text:
        value = event.value
        node = Text(value if "\n" not in value else _with_paragraphs(event), self._place(event))
        if event.anchor or event.tag:
            self._refuse_magic(event, node)
        return node

    def _fill_list(self, node: List, depth: int) -> Any:
        """Up to the event that ends it, which is given back."""
        while type(event := self.next()) is not yaml.SequenceEndEvent:
            node.items.append(self._node(event, depth))
        return event

    def _fill_mapping(self, node: Mapping, depth: int) -> Any:
        """Up to the event that ends it, which is given back."""
        entries, following = node.entries, self.next
        while type(event := following()) is not yaml.MappingEndEvent:
            key = self._text(event) if type(event) is _Scalar else self._no_key(event)
            name = same_name(key.value)
            if name in entries:
                self._repeated(key, entries[name][0])
                self._node(following(), depth)
            else:
                entries[name] = (key, self._node(following(), depth))
        return event

    def _no_key(self, event: Any) -> NoReturn:
        if type(event) is yaml.AliasEvent:
            self._alias(event)
        self._stop(
            "not-yaml",
            self._place(event),
            "A key must be words, not a list or a mapping.",
            "Put words before the colon, or quotes round the whole.",
        )

    def _repeated(self, key: Text, first: Text) -> None:
        self.faults.add(
            "repeated-key",
            key.place,
            f"“{key.value}” is written twice here; only the first, in line {first.place.line}, would count.",
            "Keep one of the two.",
            related=(Related("It stands here already", first.place),),
        )

    def _alias(self, event: Any) -> NoReturn:
        self._stop(
            "alias-not-read",
            self._place(event),
            f"“*{event.anchor}” points at another place in the file.",
            "Write the text out where it is needed; the source has no anchors or aliases.",
        )

    def _second_document(self, event: Any) -> NoReturn:
        self._stop(
            "not-yaml",
            self._place(event),
            "A second document begins here, after “---”.",
            "Put it in a file of its own.",
        )

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

    def _stop(self, rule: str, place: Place, says: str, mend: str) -> NoReturn:
        self.faults.unreadable(rule, place, says, mend)
        raise _Stop

    def _place(self, event: Any) -> Place:
        start, end = event.start_mark, event.end_mark
        return Place(self.name, start.line + 1, start.column + 1, end.line + 1, end.column + 1)
