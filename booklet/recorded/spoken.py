"""Words as they are spoken: their stems, the numbers among them, and the measures that they make."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.craft.load import table
from booklet.length import GLYPHS, Length

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

_GLYPH = "".join(GLYPHS.values())
_FROM_GLYPH = {glyph: value for value, glyph in GLYPHS.items()}
_WORD = re.compile(rf"[0-9]+[/⁄][0-9]+|[0-9]+(?:\.[0-9]+)?|[{_GLYPH}]|[^\W\d_]+(?:['’][^\W\d_]+)*|[\"″]")
_UNITS = {
    **dict.fromkeys(("in", "inch", "inches", '"', "″"), "in"),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters", "centi"), "cm"),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters", "mil", "mils"), "mm"),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("yd", "yard", "yards"), "yd"),
}  # fmt: skip
# After a bare number these are no units: "cut two in lining", "pin it at one m…".
_NEEDS_PART = frozenset({"in", "m", '"', "mil", "mils"})


class Word(NamedTuple):
    """A word in small letters, and where it stands in its text."""

    word: str
    start: int
    end: int


class Said(NamedTuple):
    """A measure said in words or figures: the length, and where it stands among the words. bare: without its unit."""

    length: Length
    first: int
    last: int
    bare: bool


def counts(word: str) -> bool:
    """Whether it is a number, a part or a unit, and no thing."""
    return word in _UNITS or word in spoken()["numbers"] or word in spoken()["parts"]


def words_of(text: str) -> list[Word]:
    return [Word(match[0].lower().replace("’", "'"), *match.span()) for match in _WORD.finditer(text)]


@cache
def spoken() -> dict[str, Any]:
    return table("spoken")


@cache
def fillers() -> frozenset[str]:
    return frozenset(spoken()["fillers"])


@lru_cache(65_536)
def stem(word: str) -> str:
    """Without the endings of number and time; words that are alike have one: `pressing` and `ironed` are `press`."""
    base = _base(word)
    return _alike().get(base, base)


def _base(word: str) -> str:
    word = word.removesuffix("'s").replace("'", "")
    irregular: dict[str, str] = spoken()["irregular"]
    if word in irregular:
        return irregular[word]
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes", "zes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us", "is")):
        word = word[:-1]
    for ending in ("ing", "ed", "er"):
        if word.endswith(ending) and len(word) - len(ending) >= 3 and re.search("[aeiouy]", word[: -len(ending)]):
            word = word[: -len(ending)]
            if word[-1] == word[-2] and word[-1] not in "lsz":
                word = word[:-1]
            break
    return word.removesuffix("e") if len(word) > 3 else word


@cache
def _alike() -> dict[str, str]:
    rows: list[list[str]] = spoken()["alike"]
    return {_base(other): _base(row[0]) for row in rows for other in row if " " not in other}


def measures_in(words: Sequence[Word]) -> list[Said]:
    """Every measure, from left to right: `five eighths of an inch`, `an inch and a half`, `1.5 cm`, `⅝`, `5/8`."""
    found: list[Said] = []
    at = 0
    while at < len(words):
        said = _measure(words, at)
        if said is None:
            at += 1
        else:
            found.append(said)
            at = said.last + 1
    return found


def _measure(words: Sequence[Word], at: int) -> Said | None:
    article = words[at].word in ("a", "an")
    first = at
    if article and at and words[at - 1].word == "of":
        return None  # of “five eighths of an inch”, where the caption lost what stands before
    if article and at + 1 < len(words) and _UNITS.get(words[at + 1].word) in ("in", "yd", "m"):
        return _and_more(words, first, at + 1, Fraction(1), _UNITS[words[at + 1].word])
    if article:
        at += 1
    read = _amount(words, at)
    if read is None:
        return None
    amount, after, parted = read
    unit_at = after
    while unit_at < len(words) and unit_at - after < 2 and words[unit_at].word in ("of", "a", "an"):
        unit_at += 1
    word = words[unit_at].word if unit_at < len(words) else ""
    if unit_at > after and not parted:
        return None  # no one says “three of an inch”
    if word in _UNITS and (parted or word not in _NEEDS_PART or (unit_at == after and word != "in")):
        return _and_more(words, first, unit_at, amount, _UNITS[word])
    if parted and amount.denominator >= 8:
        return Said(Length(amount, "in"), first, after - 1, True)
    return None


def _and_more(words: Sequence[Word], first: int, last: int, amount: Fraction, unit: str) -> Said:
    """`an inch and a half`, `two inches and three eighths`."""
    if last + 1 < len(words) and words[last + 1].word == "and" and amount.denominator == 1:
        at = last + 2
        if at < len(words) and words[at].word in ("a", "an"):
            at += 1
        more = _amount(words, at)
        if more is not None and more[2] and more[0] < 1:
            return Said(Length(amount + more[0], unit), first, more[1] - 1, False)
    return Said(Length(amount, unit), first, last, False)


def _amount(words: Sequence[Word], at: int) -> tuple[Fraction, int, bool] | None:
    """The number that begins here, the word after it, and whether it has a part of a whole."""
    part = _part(words, at)
    if part is not None:
        return (*part, True)
    whole = _whole(words, at)
    if whole is None:
        return None
    number, after = whole
    if number.denominator > 1:
        return number, after, True
    if after + 1 < len(words) and words[after].word == "point" and (tenths := _whole(words, after + 1)):
        return number + tenths[0] / (10 if tenths[0] < 10 else 100), tenths[1], True
    nearer = after
    while nearer < len(words) and nearer - after < 2 and words[nearer].word in ("and", "a", "an"):
        nearer += 1
    part = _part(words, nearer)
    if part is not None and part[0] < 1:
        return number + part[0], part[1], True
    return number, after, False


def _part(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """`half`, `quarter`, `three quarters`, `five eighths`, `5/8`, `⅝`."""
    if at >= len(words):
        return None
    word = words[at].word
    if word in _FROM_GLYPH:
        return _FROM_GLYPH[word], at + 1
    top, slash, bottom = word.replace("⁄", "/").partition("/")
    if slash:
        over = int(bottom[:6])
        return (Fraction(int(top[:6]), over), at + 1) if over else None
    parts: dict[str, str] = spoken()["parts"]
    if word in parts and not word.endswith("s") and word not in ("fourth", "third"):
        return Fraction(1, int(parts[word])), at + 1
    whole = _whole(words, at)
    if whole is not None and whole[1] < len(words) and whole[0].denominator == 1 and whole[0] < 16:
        below = parts.get(words[whole[1]].word)
        if below and 0 < whole[0] < int(below):
            return Fraction(whole[0], int(below)), whole[1] + 1
    return None


def _whole(words: Sequence[Word], at: int) -> tuple[Fraction, int] | None:
    """`twelve`, `twenty five`, `12`, `1.5`."""
    if at >= len(words):
        return None
    word = words[at].word
    if word[0].isdigit() and word.isascii() and "/" not in word:
        return (Fraction(word), at + 1) if len(word) <= 8 else None
    numbers: dict[str, str] = spoken()["numbers"]
    if word not in numbers:
        return None
    value = int(numbers[word])
    if value >= 20 and at + 1 < len(words) and 0 < int(numbers.get(words[at + 1].word, "0")) < 10:
        return Fraction(value + int(numbers[words[at + 1].word])), at + 2
    return Fraction(value), at + 1


def steps_named(words: Sequence[Word]) -> Iterator[int]:
    """The numbers of steps that are said: `step twelve`, `step number 12`."""
    for at, word in enumerate(words):
        if word.word == "step":
            after = at + 2 if at + 1 < len(words) and words[at + 1].word == "number" else at + 1
            whole = _whole(words, after)
            if whole is not None and whole[0].denominator == 1:
                yield int(whole[0])


def tokens_of(words: Sequence[Word]) -> list[str]:
    """What of the words tells one step from another: stems, measures (`=15.875`, in mm), numbers of steps (`#12`)."""
    measures = measures_in(words)
    taken = {at for said in measures for at in range(said.first, said.last + 1)}
    tokens = [stem(word.word) for at, word in enumerate(words) if at not in taken and word.word not in fillers()]
    tokens += [f"={float(said.length.millimetres):g}" for said in measures]
    return [*tokens, *(f"#{number}" for number in steps_named(words))]
