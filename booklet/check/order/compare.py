"""Which steps moved between two orders of the same steps: only those, so that the rest keeps its order."""

from __future__ import annotations

from bisect import bisect_left
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from collections.abc import Sequence

_T = TypeVar("_T")


def moved_between(written: Sequence[_T], other: Sequence[_T]) -> list[_T]:
    """The fewest that must move, in the order of `other`; what stays is a longest common subsequence of both."""
    places = {each: at for at, each in enumerate(written)}
    stays = {other[at] for at in longest_rising([places[each] for each in other])}
    return [each for each in other if each not in stays]


def longest_rising(numbers: Sequence[int]) -> list[int]:
    """The places of a longest rising subsequence of numbers that are all different, by patience sorting."""
    tops: list[int] = []
    places: list[int] = []
    below: list[int] = []
    for at, number in enumerate(numbers):
        pile = bisect_left(tops, number)
        below.append(places[pile - 1] if pile else -1)
        tops[pile : pile + 1] = [number]
        places[pile : pile + 1] = [at]
    found: list[int] = []
    at = places[-1] if places else -1
    while at >= 0:
        found.append(at)
        at = below[at]
    return found[::-1]
