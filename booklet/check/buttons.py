"""Buttonholes and the buttons of the notions list for which they are made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.notions import meant
from booklet.check.numbers import in_system_of
from booklet.craft.load import table
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import Length
    from booklet.model.pattern import Notion
    from booklet.sew.bench import Act, Bench


def holes_of(bench: Bench) -> Iterator[tuple[Act, Length, Notion, Length]]:
    """Every buttonhole whose length is given, with its one kind of button and that one's size, in the hole's system."""
    for act in bench.of("buttonhole"):
        long = act.entry.measure("long")
        notions = meant(bench, act) if long is not None else []
        sizes = {notion.size.length for notion in notions if notion.size}
        if long is not None and len(sizes) == 1 and all(notion.size for notion in notions):
            yield act, long, notions[0], in_system_of(sizes.pop(), long, bench.pattern.house)


def is_thick(notion: Notion) -> bool:
    """Whether its name, or its note, tells of a button that is no flat disc."""
    words = set(same_name(f"{notion.item} {notion.note.value if notion.note else ''}").replace(",", " ").split())
    return not words.isdisjoint(table("edges")["thick buttons"]["words"])
