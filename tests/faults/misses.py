"""Why a fault is not told: the reasons of misses.yaml."""

from __future__ import annotations

from pathlib import Path

import yaml

MISSES: dict[str, dict[str, str]] = yaml.safe_load(Path(__file__).with_suffix(".yaml").read_text(encoding="utf-8"))


def why(kind: str, where: str) -> str:
    """The reason why a fault of that kind is not told there, or "" where none is known."""
    places = MISSES.get(kind, {})
    return next((reason for place, reason in places.items() if where.startswith(place)), "")
