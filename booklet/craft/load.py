"""Reads the trade's tables. Each table is read once, when it is first asked for."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import yaml

_HERE = Path(__file__).parent
# The base loader leaves every scalar as text: `on` is the word on.
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

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
    """The rows of one table, as written."""
    rows: dict[str, Any] = yaml.load((_HERE / f"{name}.yaml").read_text(encoding="utf-8"), Loader=_Loader)
    return rows


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
