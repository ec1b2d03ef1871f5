"""Exact lengths: read as people write them, kept as fractions, spelled at one place.

A Length is an amount and a unit, both as written; its size in millimetres is a Fraction. Nothing here is a float.
"""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

# How many millimetres is one <unit>? Exact since 1 July 1959: 1 yard = 0.9144 m, so 1 inch = 25.4 mm.
# Source: addendum to NBS Circular 572.
MILLIMETRES = {
    "in": Fraction(254, 10),
    "yd": Fraction(9144, 10),
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
}
INCH_UNITS = frozenset({"in", "yd"})
# In what is cloth bought, and nothing sewn?
CLOTH_UNITS = frozenset({"yd", "m"})

# Which ways of writing a unit mean it? Common practice, no source.
_UNIT_WORDS = {
    "in": "in", "in.": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in",
    "yd": "yd", "yd.": "yd", "yds": "yd", "yard": "yd", "yards": "yd",
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
}  # fmt: skip

# Unicode's vulgar fractions that the bundled type has. Source: Unicode 15, Number Forms and Latin-1.
GLYPHS = {
    Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(1, 8): "⅛", Fraction(3, 8): "⅜",
    Fraction(5, 8): "⅝", Fraction(7, 8): "⅞", Fraction(1, 3): "⅓", Fraction(2, 3): "⅔",
}  # fmt: skip
_FROM_GLYPH = {glyph: value for value, glyph in GLYPHS.items()}
_GLYPH_CLASS = "".join(_FROM_GLYPH)

# ASCII digits only, and few of them: \d would let in other scripts' digits, and a number has no use for a thousand.
_NUMBER = (
    rf"(?:(?P<whole>[0-9]{{1,4}})(?:[ \u00a0\u202f-]|(?=[{_GLYPH_CLASS}])))?"
    rf"(?:(?P<top>[0-9]{{1,3}})\s?[/⁄]\s?(?P<bottom>[0-9]{{1,3}})|(?P<glyph>[{_GLYPH_CLASS}]))"
    r"|(?P<plain>[0-9]{1,6}(?:\.[0-9]{1,4})?)"
)
_PARTS = ("whole", "top", "bottom", "glyph", "plain")
_UNITS = r"inches|inch|in\b|yards?|yds?\b|millimet(?:re|er)s?|mm\b|centimet(?:re|er)s?|cm\b|met(?:re|er)s?\b|m\b|[\"″”]"
# In “sew all 2 in the same way”, `in` is no unit: a whole number, then `in`, then one of these.
_NOT_INCHES = (
    r"\s+(?:the|an?|each|this|these|your|both|all|order|turn|total|place|one|pairs|same|half"
    r"|lining|interfacing|fusible|self|contrast|fabric)\b"
)
# A size, a page or a step has a number and no length, even where “in” comes next.
_NAMED = r"\b(?:sizes?|pages?|steps?|pieces?|views?|figures?|numbers?|sections?)\s+\Z"
_IN_PROSE = rf"(?<![\w./⁄])(?<![0-9],)(?:{_NUMBER})[ \u00a0\u202f-]?(?P<unit>{_UNITS})"
_ALONE = rf"\s*(?:{_NUMBER})\s*(?P<unit>[a-zA-Z.\"″”]*)\s*\Z"


@cache
def _expression(source: str) -> re.Pattern[str]:
    """Compiled when first used: most runs need one of the two."""
    return re.compile(source, re.IGNORECASE)


@cache
def _begins() -> re.Pattern[str]:
    return re.compile(f"[0-9{_GLYPH_CLASS}]")


class BadLength(ValueError):
    """A measure that cannot be read; its text says why in words for the writer."""


class Length:
    """An exact length. Two lengths are equal when they are the same size, however they were written."""

    __slots__ = ("_terms", "amount", "millimetres", "unit", "written")

    def __init__(self, amount: Fraction | int, unit: str, written: str = "") -> None:
        self.amount = Fraction(amount)
        self.unit = unit
        self.millimetres = self.amount * MILLIMETRES[unit]
        self.written = written
        # Compared and hashed by its lowest terms: a Fraction's own comparing and hashing take ten times as long.
        self._terms = (self.millimetres.numerator, self.millimetres.denominator)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Length) and self._terms == other._terms

    def __lt__(self, other: Length) -> bool:
        return self._terms[0] * other._terms[1] < other._terms[0] * self._terms[1]

    def __le__(self, other: Length) -> bool:
        return not other < self

    def __gt__(self, other: Length) -> bool:
        return other < self

    def __ge__(self, other: Length) -> bool:
        return not self < other

    def __hash__(self) -> int:
        return hash(self._terms)

    def __bool__(self) -> bool:
        return self._terms[0] != 0

    def __add__(self, other: Length) -> Length:
        if self.unit == other.unit:
            return Length(self.amount + other.amount, self.unit)
        return _in_unit(self.millimetres + other.millimetres, self.unit)

    def __sub__(self, other: Length) -> Length:
        return _in_unit(self.millimetres - other.millimetres, self.unit)

    def __mul__(self, times: int | Fraction) -> Length:
        return Length(self.amount * times, self.unit)

    def __repr__(self) -> str:
        return f"Length({str(self)!r})"

    def __str__(self) -> str:
        """Plain text, as in `1 1/4 in` or `1.5 cm`."""
        return spell(self).plain

    @property
    def metric(self) -> bool:
        return self.unit not in INCH_UNITS


class Spelled(NamedTuple):
    """A length taken apart for setting: `1 5/8 in` is ("1", "5", "8", "in"); `1.5 cm` is ("1.5", "", "", "cm")."""

    whole: str
    top: str
    bottom: str
    unit: str

    @property
    def plain(self) -> str:
        """With a plain slash, for terminals and files: `1 5/8 in`."""
        fraction = f"{self.top}/{self.bottom}" if self.top else ""
        return f"{' '.join(part for part in (self.whole, fraction) if part)} {self.unit}"

    @property
    def typeset(self) -> str:
        """With a fraction glyph where the bundled type has one, and a no-break space before the unit: `1⅝ in`."""
        if not self.top:
            return f"{self.whole}\u00a0{self.unit}"
        glyph = GLYPHS.get(Fraction(int(self.top), int(self.bottom)))
        if glyph:
            return f"{self.whole}{glyph}\u00a0{self.unit}"
        return f"{self.whole}{chr(0x202F) if self.whole else ''}{self.top}⁄{self.bottom}\u00a0{self.unit}"


def _in_unit(millimetres: Fraction, unit: str) -> Length:
    return Length(millimetres / MILLIMETRES[unit], unit)


@lru_cache(4096)
def parse(text: str) -> Length:
    """One measure, alone in its text.

    Raises BadLength with a sentence when there is no number, no unit, an unknown unit, or a division by nothing.
    """
    match = _expression(_ALONE).match(text)
    if not match:
        raise BadLength(f"“{text}” is not a measure")
    word = match["unit"].lower()
    if not word:
        raise BadLength(f"“{text}” has no unit")
    if word not in _UNIT_WORDS:
        raise BadLength(f"“{text}” has a unit that is not known")
    return Length(_amount(match.group(), *match.group(*_PARTS)), _UNIT_WORDS[word], text.strip())


@lru_cache(16384)
def find(text: str) -> tuple[tuple[int, int, Length], ...]:
    """Every measure in prose, with where it starts and ends.

    Passed over: a zero under the bar, a fraction of more than one (a needle is 80/12), a decimal comma, a number that
    only stands before the word “in”, and one after which a quotation ends.
    """
    found: list[tuple[int, int, Length]] = []
    done, quotes, opened = 0, 0, 0
    for match in _numbers_in(text):
        between = text[done : match.start()]
        quotes += between.count('"')
        opened = max(0, opened + between.count("“") - between.count("”"))
        done = match.end("unit")
        unit = match["unit"].lower()
        closes = (unit == '"' and quotes % 2 == 1) or (unit == "”" and opened > 0)
        if (closes and match["plain"]) or (unit in '"”' and text[match.start("unit") - 1].isspace()):
            done = match.start("unit")
            continue
        length = _written(match.group(), unit, *match.group(*_PARTS))
        if length is not None and not _is_no_length(text, match):
            found.append((match.start(), match.end(), length))
    return tuple(found)


def _numbers_in(text: str) -> Iterator[re.Match[str]]:
    """As finditer gives them, but tried only where a number begins: five times as fast."""
    begins, number = _begins(), _expression(_IN_PROSE)
    at = 0
    while (begin := begins.search(text, at)) is not None:
        match = number.match(text, begin.start())
        if match is not None:
            yield match
        at = begin.end() if match is None else match.end()


@lru_cache(4096)
def _written(text: str, unit: str, *parts: str | None) -> Length | None:
    """The measure that a text gives; None where it divides by nothing, or is a fraction of more than one.

    None too where the unit has a letter like İ in it, which is an i where case counts for nothing.
    """
    _, top, bottom, _, _ = parts
    if (top and bottom and int(top) >= int(bottom)) or unit not in _UNIT_WORDS:
        return None
    return Length(_amount(text, *parts), _UNIT_WORDS[unit], text)


def _is_no_length(text: str, match: re.Match[str]) -> bool:
    """Whether a whole number and “in” are two words that only stand side by side."""
    if not match["plain"] or match["unit"].lower() != "in":
        return False
    before = text[max(0, match.start() - 12) : match.start()]
    return bool(_expression(_NOT_INCHES).match(text, match.end()) or _expression(_NAMED).search(before))


def _amount(
    text: str, whole: str | None, top: str | None, bottom: str | None, glyph: str | None, plain: str | None
) -> Fraction:
    """The number that the parts of _NUMBER make."""
    if plain:
        return Fraction(plain)
    if glyph:
        return int(whole or 0) + _FROM_GLYPH[glyph]
    if int(bottom or 0) == 0:
        raise BadLength(f"“{text.strip()}” divides by nothing")
    return int(whole or 0) + Fraction(int(top or 0), int(bottom or 0))


def spell(length: Length) -> Spelled:
    """How people write it: inches and yards as mixed numbers, metric as decimals where they end, else as fractions."""
    amount = length.amount
    if length.metric:
        decimal = _decimal(amount)
        if decimal is not None:
            return Spelled(decimal, "", "", length.unit)
    whole, rest = divmod(abs(amount), 1)
    sign = "−" if amount < 0 else ""
    if not rest:
        return Spelled(f"{sign}{whole}", "", "", length.unit)
    return Spelled(f"{sign}{whole}" if whole else sign, str(rest.numerator), str(rest.denominator), length.unit)


def _decimal(amount: Fraction) -> str | None:
    scaled = amount * 1000
    if scaled.denominator != 1:
        return None
    thousandths = abs(int(scaled))
    text = f"{thousandths // 1000}.{thousandths % 1000:03d}".rstrip("0").rstrip(".")
    return f"−{text}" if amount < 0 else text


class House:
    """The house's rounding between the systems: its own table first, then the usual one.

    `rows`: first and other, as in the pattern's `metric:`. A row of inches is none for yards: 45 in of width is 115 cm,
    and 1 1/4 yd of cloth, which is as long, 1.2 m.
    """

    __slots__ = ("rows",)

    def __init__(self, rows: dict[Length, Length] | Iterable[tuple[Length, Length]] = ()) -> None:
        pairs = list(rows.items() if isinstance(rows, dict) else rows)
        self.rows = {(other.unit in CLOTH_UNITS, other): first for first, other in reversed(pairs)}
        self.rows |= {(first.unit in CLOTH_UNITS, first): other for first, other in pairs}

    def other(self, length: Length) -> Length:
        """The same measure in the other system, rounded as the house does."""
        return self.rows.get((length.unit in CLOTH_UNITS, length)) or usual(length)


def usual(length: Length) -> Length:
    """The usual rounding to the other system.

    Inches to whole millimetres below 1 cm, to 0.1 cm up to 20 cm, then to 0.5 cm. Metric to sixteenths below 1/2 in, to
    eighths up to 8 in, then to quarters. Cloth is bought by yards and metres and must be enough: up to the next 0.1 m
    (0.05 m below one) or eighth of a yard, but for a sliver. Our choice: within 1 mm of exact up to 2 in, as common
    practice asks (no source).
    """
    mm = length.millimetres
    if length.unit == "yd":
        return Length(_enough(mm / 1000, Fraction(1, 20) if mm < 1000 else Fraction(1, 10)), "m")
    if length.unit == "in":
        if mm < Fraction(95, 10):
            return Length(_nearest(mm, Fraction(1)), "mm")
        return Length(_nearest(mm / 10, Fraction(1, 10) if mm < 200 else Fraction(1, 2)), "cm")
    if length.unit == "m":
        return Length(_enough(mm / MILLIMETRES["yd"], Fraction(1, 8)), "yd")
    inches = mm / MILLIMETRES["in"]
    step = Fraction(1, 16) if inches < Fraction(1, 2) else Fraction(1, 8) if inches < 8 else Fraction(1, 4)
    return Length(_nearest(inches, step), "in")


# How much of a metre or a yard may cloth be short by? One part in a hundred, about 1 cm. Our choice.
_SLIVER = Fraction(1, 100)


def _enough(value: Fraction, step: Fraction) -> Fraction:
    return -((_SLIVER - value) // step) * step


def _nearest(value: Fraction, step: Fraction) -> Fraction:
    """Halves go up, so that the answer does not depend on the neighbour's being even."""
    return (value / step + Fraction(1, 2)).__floor__() * step
