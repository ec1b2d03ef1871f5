"""One entry of `work`: which operation, on which things, with which numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from booklet.craft.load import Operation, constructions, kinds, operations
from booklet.length import BadLength, parse
from booklet.model.kinds import Either, Measure, Number, OneOf, OneOrMore, Table, Words, unknown_key, wrong_shape
from booklet.model.pattern import EdgeName, Entry, Measured
from booklet.read.faults import nearest
from booklet.read.tree import List, Mapping, Node, Text, same_name

if TYPE_CHECKING:
    from collections.abc import Iterable

    from booklet.model.kinds import Kind
    from booklet.read.faults import Faults

_WORDS = Words("a name")
_MEASURE = Measure()
_MEASURES = OneOrMore(_MEASURE)


def option_kind(name: str) -> Kind:
    """The kind of value that an option of operations.yaml holds."""
    if name == "measure":
        return _MEASURE
    if name == "measures":
        return _MEASURES
    if name == "construction":
        return OneOf(*constructions())
    if name == "finish":
        return OneOf("overlock", "zigzag", "pink", "clean", "bind")
    if name == "count":
        number = Number(whole=True, most=999)
        return Either(number, Table(number, "views"))
    if name == "things":
        return OneOrMore(_WORDS)
    if name.endswith(" kind"):
        return OneOf(*kinds(name.removesuffix(" kind")))
    return _WORDS


_KINDS: dict[str, Kind] = {}


def read_entry(node: Node, faults: Faults) -> Entry | None:
    """An entry, or None after saying what is wrong with it."""
    if not isinstance(node, Mapping) or not node.entries:
        wrong_shape(
            node, "an entry of “work”", "an operation and its things, as in “sew: [front.side, back.side]”", faults
        )
        return None
    rows = operations()
    name = next((key for key in node.entries if key in rows), None)
    if name is None:
        key = next(iter(node.entries.values()))[0]
        near = nearest(key.value, rows)
        faults.add(
            "unknown-operation",
            key.place,
            f"“{key.value[:60]}” is no operation that the tool knows.",
            f"Did you mean “{near}”?"
            if near
            else "It knows sew, press, hem, pocket and many more: the reference has them, under “The words of work”.",
        )
        return None
    operation = rows[name]
    entry = Entry(operation, node.entries[name][0].place)
    if not _TAKES[operation.takes](entry, node.entries[name][1], faults):
        return None
    for option, (key, value) in node.entries.items():
        if option == name:
            continue
        if option == "says":
            entry.says = _WORDS.read(value, "“says”", faults)
        elif option not in operation.options:
            unknown_key(key, f"“{name}” entry", {**operation.options, "says": ""}, faults)
        else:
            kind = _KINDS.setdefault(operation.options[option], option_kind(operation.options[option]))
            read = kind.read(value, f"“{key.value}”", faults)
            if read is not None:
                entry.options[option] = read
    return entry


def edge_name(text: Text) -> EdgeName:
    """`front.shoulder` taken apart; with no dot, the edge is empty and a part is meant."""
    part, _, edge = text.value.partition(".")
    return EdgeName(same_name(part), same_name(edge), text.value.strip(), text.place)


def _names(node: Node, operation: str, faults: Faults) -> tuple[EdgeName, ...]:
    found: list[EdgeName] = []
    for item in node.items if isinstance(node, List) else [node]:
        if isinstance(item, Text) and item.value.strip():
            found.append(edge_name(item))
        else:
            wrong_shape(item, f"“{operation}”", "a name, as in front.shoulder", faults)
    return tuple(found)


def _things(entry: Entry, node: Node, faults: Faults) -> bool:
    entry.things = _names(node, entry.name, faults)
    return bool(entry.things)


def _edges(entry: Entry, node: Node, faults: Faults) -> bool:
    if not _things(entry, node, faults):
        return False
    return _all_edges(entry.things, entry.name, faults)


def _all_edges(names: Iterable[EdgeName], operation: str, faults: Faults) -> bool:
    """Whether each names an edge; every one that does not is said, not only the first."""
    named = [_has_edge(name, operation, faults) for name in names]
    return all(named)


def _has_edge(name: EdgeName, operation: str, faults: Faults) -> bool:
    if name.part and name.edge:
        return True
    faults.add(
        "wrong-shape",
        name.place,
        f"“{operation}” needs an edge, and “{name.written[:60]}” names none.",
        f"Write the part, a point and the edge, as in {name.part.split(' in ')[0] or 'front'}.side.",
    )
    return False


def _sides(entry: Entry, node: Node, faults: Faults) -> bool:
    if not isinstance(node, List) or len(node.items) < 2:
        wrong_shape(node, f"“{entry.name}”", "two sides or more, as in [front.side, back.side]", faults)
        return False
    sides = tuple(_names(item, entry.name, faults) for item in node.items)
    if not all(sides) or not _all_edges([name for side in sides for name in side], entry.name, faults):
        return False
    entry.sides = sides
    entry.things = tuple(name for side in sides for name in side)
    return True


def _edges_or_sides(entry: Entry, node: Node, faults: Faults) -> bool:
    if isinstance(node, List) and len(node.items) > 1:
        return _sides(entry, node, faults)
    return _edges(entry, node, faults)


def _seam_or_edges(entry: Entry, node: Node, faults: Faults) -> bool:
    if isinstance(node, Text) and "." not in node.value:
        entry.word = node
        return True
    return _edges(entry, node, faults)


def _word(entry: Entry, node: Node, faults: Faults) -> bool:
    entry.word = Words().read(node, f"“{entry.name}”", faults)
    return entry.word is not None


def _measures(entry: Entry, node: Node, faults: Faults) -> bool:
    entry.measures = _MEASURES.read(node, f"“{entry.name}”", faults)
    return bool(entry.measures)


def _spacing(entry: Entry, node: Node, faults: Faults) -> bool:
    if isinstance(node, Text):
        words = same_name(node.value)
        if words in ("corners", "to the stitching"):
            entry.spacing = (words, None)
            return True
        if words.startswith("every "):
            try:
                entry.spacing = ("every", Measured(parse(words[6:]), node.place))
                return True
            except BadLength:
                pass
    faults.add(
        "wrong-shape",
        node.place,
        f"“{entry.name}” takes “every” and a measure, “corners” or “to the stitching”.",
        "Write, for one, “every 1/2 in”.",
    )
    return False


_TAKES: dict[str, Any] = {
    "edges": _edges,
    "edge": _edges,
    "sides": _sides,
    "edges or sides": _edges_or_sides,
    "parts": _things,
    "things": _things,
    "darts": _edges,
    "seam or edges": _seam_or_edges,
    "measure": _measures,
    "measures": _measures,
    "spacing": _spacing,
    "direction": _word,
    "notion": _word,
}


def operation_schema(operation: Operation) -> dict[str, Any]:
    """The JSON Schema of one entry of `work`."""
    names = OneOrMore(_WORDS).schema()
    sides = {"type": "array", "minItems": 2, "items": names}
    main = {
        "measure": _MEASURE.schema(),
        "measures": _MEASURES.schema(),
        "direction": {"type": "string"},
        "notion": {"type": "string"},
        "spacing": {"type": "string", "pattern": "^(every .+|corners|to the stitching)$"},
        "sides": sides,
        "edges or sides": {"anyOf": [names, sides]},
    }.get(operation.takes, names)
    options = {option: option_kind(kind).schema() for option, kind in operation.options.items()}
    return {
        "type": "object",
        "required": [operation.name],
        "additionalProperties": False,
        "properties": {operation.name: {"description": operation.says, **main}, **options, "says": {"type": "string"}},
    }
