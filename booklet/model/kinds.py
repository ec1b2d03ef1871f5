"""The kinds of value that a key may hold: each reads a node, says what is wrong, and knows its JSON Schema."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.length import BadLength, parse
from booklet.model.pattern import Measured
from booklet.read.faults import Faults, nearest
from booklet.read.tree import List, Mapping, Node, Text, same_name
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping as Rows


class Kind:
    """read gives the value, or None after saying why; `at` is what the finding calls the place, as in `“text”`."""

    def read(self, node: Node, at: str, faults: Faults) -> Any:
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        raise NotImplementedError


def wrong_shape(node: Node, at: str, wanted: str, faults: Faults) -> None:
    is_now = {Text: "words", List: "a list", Mapping: "keys with colons"}[type(node)]
    faults.add(
        "wrong-shape",
        node.place,
        f"{_begun(at)} should hold {wanted}; here it holds {is_now}.",
        f"Write {wanted} there.",
    )


def _begun(at: str) -> str:
    """The name of a place, to begin a sentence with."""
    return at[:1].upper() + at[1:]


class Words(Kind):
    """Text, and not empty unless `empty`."""

    def __init__(self, wanted: str = "words") -> None:
        self.wanted = wanted

    def read(self, node: Node, at: str, faults: Faults) -> Text | None:
        if not isinstance(node, Text):
            wrong_shape(node, at, self.wanted, faults)
            return None
        if not node.value.strip():
            faults.add(
                "wrong-shape",
                node.place,
                f"{_begun(at)} is empty.",
                f"Write {self.wanted} there, or leave the key out.",
            )
            return None
        return node

    def schema(self) -> dict[str, Any]:
        return {"type": ["string", "number", "boolean"]}


class Measure(Kind):
    def read(self, node: Node, at: str, faults: Faults) -> Measured | None:
        if not isinstance(node, Text):
            wrong_shape(node, at, "one measure, such as 5/8 in", faults)
            return None
        try:
            return Measured(parse(node.value), node.place)
        except BadLength as error:
            faults.add(
                "not-a-measure", node.place, f"{error}.", "Write a number and its unit, such as 5/8 in, 1.5 cm or 2 yd."
            )
            return None

    def schema(self) -> dict[str, Any]:
        return {
            "type": "string",
            "pattern": r"^\s*[0-9⅛¼⅜½⅝¾⅞⅓⅔].*[a-zA-Z\"″”]\.?\s*$",
            "description": "such as 5/8 in or 1.5 cm",
        }


class OneOrMore(Kind):
    """One value or a list of them; always read as a tuple."""

    def __init__(self, kind: Kind) -> None:
        self.kind = kind

    def read(self, node: Node, at: str, faults: Faults) -> tuple[Any, ...]:
        nodes = node.items if isinstance(node, List) else [node]
        values = (self.kind.read(item, at, faults) for item in nodes)
        return tuple(value for value in values if value is not None)

    def schema(self) -> dict[str, Any]:
        one = self.kind.schema()
        return {"anyOf": [one, {"type": "array", "items": one}]}


class Items(Kind):
    """A list."""

    def __init__(self, kind: Kind, of: str) -> None:
        self.kind = kind
        self.of = of

    def read(self, node: Node, at: str, faults: Faults) -> tuple[Any, ...]:
        if isinstance(node, Text) and not node.value.strip():
            return ()
        if not isinstance(node, List):
            wrong_shape(node, at, f"a list of {self.of}, each with a dash before it", faults)
            return ()
        values = (self.kind.read(item, f"one of the {self.of}", faults) for item in node.items)
        return tuple(value for value in values if value is not None)

    def schema(self) -> dict[str, Any]:
        return {"type": "array", "items": self.kind.schema()}


class Number(Kind):
    def __init__(self, whole: bool = False, most: int = 10_000, least: int = 0) -> None:
        self.whole = whole
        self.most = most
        self.least = least

    def read(self, node: Node, at: str, faults: Faults) -> float | int | None:
        wanted = f"{'a whole number' if self.whole else 'a number'} from {self.least} to {self.most:,}"
        if not isinstance(node, Text):
            wrong_shape(node, at, wanted, faults)
            return None
        text = node.value.strip()
        plain = text.isascii() and text.replace(".", "", 0 if self.whole else 1).isdigit() and len(text) < 12
        if not plain or not self.least <= float(text) <= self.most:
            faults.add(
                "wrong-shape", node.place, f"{_begun(at)} should hold {wanted}, not “{text[:40]}”.", f"Write {wanted}."
            )
            return None
        return int(text) if self.whole else float(text)

    def schema(self) -> dict[str, Any]:
        return {"type": "integer" if self.whole else "number", "minimum": self.least, "maximum": self.most}


class OneOf(Kind):
    """One of a few words."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def read(self, node: Node, at: str, faults: Faults) -> Text | None:
        if not isinstance(node, Text):
            wrong_shape(node, at, f"one of {_list(self.words)}", faults)
            return None
        if same_name(node.value) in self.words:
            return Text(same_name(node.value), node.place)
        near = nearest(node.value, self.words)
        faults.add(
            "unknown-word",
            node.place,
            f"{_begun(at)} does not take “{node.value[:60]}”; it takes {_list(self.words)}.",
            f"Write “{near}”." if near else f"Write one of {_list(self.words)}.",
        )
        return None

    def schema(self) -> dict[str, Any]:
        return {"type": ["string", "boolean"], "enum": [*self.words, *([True, False] if "true" in self.words else [])]}


def _list(words: tuple[str, ...]) -> str:
    return ", ".join(words[:-1]) + " or " + words[-1] if len(words) > 1 else words[0]


class Table(Kind):
    """Free keys, each with a value of one kind. Read as [(key, value)]."""

    def __init__(self, kind: Kind, of: str) -> None:
        self.kind = kind
        self.of = of

    def read(self, node: Node, at: str, faults: Faults) -> list[tuple[Text, Any]]:
        if not isinstance(node, Mapping):
            wrong_shape(node, at, f"{self.of}, each a name with a colon", faults)
            return []
        rows = []
        for key, value in node.entries.values():
            read = self.kind.read(value, f"“{key.value}”", faults)
            if read is not None:
                rows.append((key, read))
        return rows

    def schema(self) -> dict[str, Any]:
        return {"type": "object", "additionalProperties": self.kind.schema()}


class Either(Kind):
    """A mapping is read by one kind, anything else by the other. Read as (is_mapping, value)."""

    def __init__(self, plain: Kind, keyed: Kind) -> None:
        self.plain = plain
        self.keyed = keyed

    def read(self, node: Node, at: str, faults: Faults) -> tuple[bool, Any]:
        if isinstance(node, Mapping):
            return True, self.keyed.read(node, at, faults)
        return False, self.plain.read(node, at, faults)

    def schema(self) -> dict[str, Any]:
        return {"anyOf": [self.plain.schema(), self.keyed.schema()]}


class Anything(Kind):
    """Kept as a node; whoever asked reads it on."""

    def __init__(self, schema: dict[str, Any] | None = None) -> None:
        self._schema = schema or {}

    def read(self, node: Node, at: str, faults: Faults) -> Node:
        return node

    def schema(self) -> dict[str, Any]:
        return self._schema


class Key(NamedTuple):
    """A key: of what kind its value is, what it says in the schema, whether it must be there."""

    kind: Kind
    says: str
    needed: bool = False


class Keyed(Kind):
    """A mapping with known keys. Read as the values by key, with `here` its place and `at` the place of each key."""

    def __init__(self, of: str, keys: Rows[str, Key]) -> None:
        self.of = of
        self.keys = keys
        self.needed = {name: key for name, key in keys.items() if key.needed}

    def read(self, node: Node, at: str, faults: Faults) -> Values | None:
        if not isinstance(node, Mapping):
            if isinstance(node, Text) and not node.value.strip() and not self.needed:
                return Values(node.place, {}, {})
            wrong_shape(node, at, f"keys with colons ({', '.join(list(self.keys)[:4])} …)", faults)
            return None
        values: dict[str, Any] = {}
        places: dict[str, Text] = {}
        meant: set[str | None] = set()
        for name, (key, value) in node.entries.items():
            known = self.keys.get(name)
            if known is None:
                meant.add(unknown_key(key, self.of, self.keys, faults))
                continue
            places[name] = key
            read = known.kind.read(value, f"“{key.value}”", faults)
            if read is not None:
                values[name] = read
        for name, known in self.needed.items():
            if name not in places and name not in meant:
                faults.add(
                    "missing-key", node.place, f"This {self.of} has no “{name}”.", f"Add “{name}:”, {known.says}."
                )
        return Values(node.place, values, places)

    def schema(self) -> dict[str, Any]:
        return {
            "type": "object",
            "additionalProperties": False,
            "required": list(self.needed),
            "properties": {name: {"description": key.says, **key.kind.schema()} for name, key in self.keys.items()},
        }


class Values(NamedTuple):
    """What a Keyed mapping held."""

    place: Any
    values: dict[str, Any]
    keys: dict[str, Text]

    def get(self, key: str, default: Any = None) -> Any:
        return self.values.get(key, default)


def unknown_key(key: Text, of: str, known: Rows[str, Any], faults: Faults) -> str | None:
    """The key that was meant, where it can be guessed."""
    near = nearest(key.value, known)
    faults.add(
        "unknown-key",
        key.place,
        f"{'An' if of[0] in 'aeiou' else 'A'} {of} has no key “{key.value[:60]}”.",
        f"Did you mean “{near}”?" if near else f"It takes {', '.join(known)}.",
    )
    return near
