"""How far a rounding may lie from the exact measure."""

from __future__ import annotations

from fractions import Fraction

from booklet.check.numbers import limit
from booklet.craft.load import table
from booklet.length import Length


def too_far(first: Length, other: Length) -> bool:
    """Whether `other` is no rounding of `first` that craft/limits.yaml takes."""
    off = other.millimetres - first.millimetres
    share = Fraction(table("limits")["large rounding"]["share"]) / 100 * first.millimetres
    if first.unit in ("yd", "m") or other.unit in ("yd", "m"):
        return off > limit("cloth rounding").millimetres or -off > share
    if other.metric or first <= limit("tiny length", metric=True):
        if first <= limit("small length"):
            return abs(off) > limit("small rounding").millimetres
    elif first <= limit("small length"):
        return abs(off) > limit("inch rounding").millimetres
    return abs(off) > share


def exact(first: Length, like: Length) -> str:
    """The exact measure in the unit of the other, to four places: `1.5875 cm`."""
    amount = float((first.millimetres / Length(1, like.unit).millimetres).limit_denominator(100_000))
    return f"{amount:.4f}".rstrip("0").rstrip(".") + f" {like.unit}"
