"""One fault put into a sound pattern, and what the tests themselves say it does to the garment."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from booklet.finding import Finding, Place
from tests.faults.draft import Draft
from tests.faults.sample import Sample

WRONG = "wrong"  # the garment can't be made so, comes out otherwise, or the booklet contradicts itself
SAME = "same"  # the same garment, said or ordered otherwise: nothing may be found
UNSURE = "unsure"  # the tests' own idea of a garment can't tell: counted apart, neither caught nor missed


class Fault(NamedTuple):
    """where: the place in words; edit: puts it in; steps, spots: a finding at one of these points at the fault."""

    where: str
    verdict: str
    edit: Callable[[Draft], object]
    steps: frozenset[str] = frozenset()
    spots: tuple[Place, ...] = ()

    def placed(self, findings: list[Finding]) -> bool:
        """Whether a finding points at the faulty step, its entry, or the other half of the conflict that it makes."""
        places = [place for each in findings for place in (each.place, *(half.place for half in each.related))]
        at_step = any(finding.step in self.steps for finding in findings)
        return at_step or any(_within(place, spot) for place in places for spot in self.spots)


def _within(place: Place, spot: Place) -> bool:
    return (
        place.file == spot.file
        and (spot.line, spot.column) <= (place.line, place.column)
        and (place.line, place.column) <= (spot.end_line, spot.end_column)
    )


Kind = Callable[[Sample], Iterator[Fault]]
KINDS: dict[str, Kind] = {}


def kind(name: str) -> Callable[[Kind], Kind]:
    """Enters a kind of fault into the bench under its name."""

    def enter(function: Kind) -> Kind:
        assert name not in KINDS, name
        KINDS[name] = function
        return function

    return enter
