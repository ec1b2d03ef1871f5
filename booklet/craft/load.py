"""Reads the trade's tables. Each table is read once, when it is first asked for."""

from __future__ import annotations

import os
from functools import cache
from typing import TYPE_CHECKING, Any

import yaml

from booklet.ready import made_of
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable

_Loader: Any = getattr(yaml, "CLoader", yaml.Loader)

# Which operations take a published code? Those of these tools, and those that the bench does so. Our choice: so that a
# new operation takes one without being told.
_STITCHING = frozenset({"sewing machine", "overlocker", "coverstitch machine", "hand needle"})
_SEAMING = frozenset({"join", "close", "finish"})


class Operation(NamedTuple):
    """A row of operations.yaml; the head of that file says what each column means."""

    name: str
    takes: str
    options: dict[str, str]
    bench: str
    says: str
    source: str
    tool: str = ""
    hazard: str = ""
    minutes: str = "1"


@cache
def table(name: str) -> dict[str, Any]:
    """The rows of one table, as written: every scalar is text, so that `on` is the word on."""
    file = os.path.join(os.path.dirname(__file__), f"{name}.yaml")
    rows: dict[str, Any] = made_of(file, lambda: _rows(file))
    return rows


def _rows(file: str) -> dict[str, Any]:
    with open(file, encoding="utf-8") as text:
        following = _Loader(text.read()).get_event
    while type(event := following()) is not yaml.MappingStartEvent:
        pass
    rows: dict[str, Any] = _value(following, event)
    return rows


def _value(following: Callable[[], Any], event: Any) -> Any:
    """The value that begins with `event`. Straight from the events: yaml.load takes twice as long."""
    kind = type(event)
    if kind is yaml.ScalarEvent:
        return event.value
    if kind is yaml.SequenceStartEvent:
        items = []
        while type(item := following()) is not yaml.SequenceEndEvent:
            items.append(_value(following, item))
        return items
    mapping = {}
    while type(key := following()) is not yaml.MappingEndEvent:
        mapping[key.value] = _value(following, following())
    return mapping


@cache
def operations() -> dict[str, Operation]:
    return {
        name: Operation(name=name, **{**row, "options": row["options"] | _codes(row)})
        for name, row in table("operations").items()
    }


def _codes(row: dict[str, Any]) -> dict[str, str]:
    """The keys that hold published codes: `stitch` wherever something stitches, `class` on a seam or an edge."""
    codes = {"stitch": "stitch"} if row.get("tool") in _STITCHING else {}
    return codes | ({"class": "seam class"} if row["bench"] in _SEAMING else {})


@cache
def constructions() -> dict[str, dict[str, Any]]:
    return table("constructions")


def kinds(operation: str) -> dict[str, dict[str, Any]]:
    """The rows of hems.yaml, zippers.yaml, pockets.yaml or plackets.yaml, by the operation that takes a `kind`."""
    return table(f"{operation}s")
