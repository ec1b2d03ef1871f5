"""Comparing measures of the two systems, by the house's rounding, and what the trade's limits are."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from booklet.check.words import listed
from booklet.craft.load import table
from booklet.length import Length, parse

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from booklet.length import House
    from booklet.sew.bench import Act, Edge, Seam


@cache
def limit(name: str, metric: bool = False) -> Length:
    """A row of craft/limits.yaml, in one of the systems."""
    return parse(table("limits")[name]["metric" if metric else "inch"])


def beyond(name: str, length: Length) -> bool:
    """Whether a measure is wider than anyone can mean."""
    return bool(name) and length > limit(name, length.metric)


def same(first: Length, second: Length, house: House) -> bool:
    """Equal exactly, or one the other's partner in the other system as the house rounds it."""
    if first == second:
        return True
    return first.metric != second.metric and (house.other(first) == second or house.other(second) == first)


def in_system_of(length: Length, other: Length, house: House) -> Length:
    return length if length.metric == other.metric else house.other(length)


def total(lengths: Sequence[Length], like: Length, house: House) -> Length:
    """Their sum, in the system of `like`. Needs at least one."""
    parts = [in_system_of(length, like, house) for length in lengths]
    whole = parts[0]
    for part in parts[1:]:
        whole = whole + part
    return whole


def reaches(length: Length, bound: Length, house: House) -> bool:
    """Whether it is as wide as the bound, or wider."""
    return length >= bound or same(length, bound, house)


def sum_of(lengths: Iterable[Length]) -> str:
    """`3/8 in + 1/4 in`."""
    return " + ".join(str(length) for length in lengths)


def sewn_at(edge: Edge) -> Length:
    """How far from the cut edge its seam line lies: as drawn, or for what is basted to another, as that one's seam."""
    seam = edge.closed.seam if edge.closed is not None else None
    return edge.allowance() if seam is None or edge in seam.edges else seam.allowance


def seam_said(seam: Seam) -> str:
    """`“neck seam”` where the writer named it, else `the seam of body.neckline and collar.neck`."""
    if seam.name:
        return f"“{seam.name}”"
    return f"the seam of {listed(name.written for side in seam.act.entry.sides for name in side)}"


def as_drawn(act: Act) -> list[Edge]:
    """The edges of an act whose numbers may be judged: those that are there and have an allowance."""
    return [edge for edge in act.edges if not edge.excused and not edge.spec.fold]
