"""How findings speak of lengths that were measured, and of the sizes in which they are wrong."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Protocol

from booklet.length import Length
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.model.pattern import Pattern


class Sized(Protocol):
    """What is wrong in one size and fitting, and by how much, in mm."""

    @property
    def size(self) -> str: ...
    @property
    def fitting(self) -> str: ...
    @property
    def off(self) -> float: ...


def rounded(millimetres: float, pattern: Pattern) -> Length:
    """In the pattern's own system, to 1/16 in or 1 mm."""
    if not pattern.metric:
        return Length(Fraction(round(millimetres / 25.4 * 16), 16), "in")
    whole = round(millimetres)
    return Length(Fraction(whole, 10), "cm") if abs(whole) >= 10 else Length(whole, "mm")


def apart(one: float, two: float, pattern: Pattern) -> Length:
    """How much longer the longer is, as the two are told."""
    more = abs(rounded(one, pattern).millimetres - rounded(two, pattern).millimetres)
    return rounded(float(more), pattern)


class Where(NamedTuple):
    """opening: `In size 14, D cup, `; ending: `; 3 of 10 sizes don't match`; sized: ` in size 14`. Each may be ""."""

    opening: str
    ending: str
    sized: str


def where_wrong(worst: Sized, wrong: Sequence[Sized], sizes: Sequence[str], verb: str = "don't match") -> Where:
    """The worst size, and how many are wrong; no size, where all are wrong by as much."""
    number = len({row.size for row in wrong})
    by = [row.off for row in wrong]
    if len(sizes) > 1 and number == len(sizes) and max(by) - min(by) < 1.0:
        return Where("", ", in every size", "")
    fitting = worst.fitting if len({row.fitting for row in wrong}) == 1 or max(by) - min(by) >= 1.0 else ""
    named = ", ".join(filter(None, (f"size {worst.size}" if worst.size else "", fitting)))
    opening, sized = (f"In {named}, ", f" in {named}") if named else ("", "")
    if len(sizes) < 2:
        return Where(opening, "", sized)
    if number == len(sizes):
        return Where(opening, f"; all sizes {verb}", sized)
    return Where(
        opening, f"; {number} of {len(sizes)} sizes {verb}" if number > 1 else "; no other size is wrong", sized
    )


def begun(where: Where, sentence: str) -> str:
    """The sentence after its opening, or with a capital where there is none."""
    return where.opening + sentence if where.opening else sentence[0].upper() + sentence[1:]


def is_or_are(names: Sequence[object]) -> str:
    return "are" if len(names) > 1 else "is"
