"""Reads the trade's tables. Each table is read once, when it is first asked for."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import yaml

_HERE = Path(__file__).parent
# The base loader leaves every scalar as text: `on` is the word on.
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


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
    return {name: Operation(name=name, **row) for name, row in table("operations").items()}


@cache
def constructions() -> dict[str, dict[str, Any]]:
    return table("constructions")
