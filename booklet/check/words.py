"""How findings join names into a sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

# How many names does a sentence hold before it counts the rest? Our choice.
MOST_NAMES = 4


def listed(names: Iterable[str], joined: str = "and") -> str:
    """`a, b and c`; a long list ends in `and 3 more`."""
    each = list(dict.fromkeys(names))
    if len(each) > MOST_NAMES + 1:
        each = [*each[:MOST_NAMES], f"{len(each) - MOST_NAMES} more"]
    return f"{', '.join(each[:-1])} {joined} {each[-1]}" if len(each) > 1 else "".join(each)
