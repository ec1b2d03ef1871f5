"""The located tree: every value is text, a list or a mapping, and knows where it stands."""

from __future__ import annotations

from functools import lru_cache

from booklet.finding import Place


class Text:
    """A scalar, as written: never turned into a number, a date or a truth value."""

    __slots__ = ("place", "value")

    def __init__(self, value: str, place: Place) -> None:
        self.value = value
        self.place = place

    def __repr__(self) -> str:
        return f"Text({self.value!r})"


class List:
    """A sequence."""

    __slots__ = ("items", "place")

    def __init__(self, place: Place) -> None:
        self.items: list[Node] = []
        self.place = place


class Mapping:
    """A mapping, in the order written. A key that came twice keeps its first value."""

    __slots__ = ("entries", "place")

    def __init__(self, place: Place) -> None:
        self.entries: dict[str, tuple[Text, Node]] = {}
        self.place = place


Node = Text | List | Mapping


@lru_cache(8192)
def same_name(name: str) -> str:
    """Names are compared without regard to case and doubled blanks."""
    return " ".join(name.lower().split())
