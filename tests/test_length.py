"""Lengths against the published definition, a library of units, and the roundings that the trade prints."""

from __future__ import annotations

import contextlib
import math
from fractions import Fraction
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet import length as reading
from booklet.length import BadLength, House, Length, find, parse, spell, usual

UNITS: Any = pint.UnitRegistry(non_int_type=Fraction)
EIGHTHS = st.integers(1, 8 * 40).map(lambda eighths: Fraction(eighths, 8))
AMOUNTS = st.builds(Fraction, st.integers(1, 4000), st.sampled_from([1, 2, 3, 4, 8, 16, 32, 64]))


# "1 yard = 0.914 4 meter exactly. From this definition it follows that 1 inch equals 25.4 millimeters": addendum to NBS
# Circular 572, in effect from 1 July 1959.
@pytest.mark.parametrize(
    ("written", "millimetres"),
    [("1 yd", Fraction("914.4")), ("1 in", Fraction("25.4")), ("36 in", Fraction("914.4")), ("1 m", Fraction(1000))],
)
def test_inch_and_yard_are_those_of_nbs_circular_572(written: str, millimetres: Fraction) -> None:
    assert parse(written).millimetres == millimetres


@given(amount=AMOUNTS, unit=st.sampled_from(["in", "yd", "mm", "cm", "m"]))
def test_every_unit_has_exactly_the_size_that_pint_gives_it(amount: Fraction, unit: str) -> None:
    """Pint counts in fractions here, so that nothing is rounded on either side."""
    name = {"in": "inch", "yd": "yard", "mm": "millimeter", "cm": "centimeter", "m": "meter"}[unit]
    assert Length(amount, unit).millimetres == UNITS.Quantity(amount, name).to("millimeter").magnitude


# Cloth, in the chart of a sewing handbook to 0.1 cm: 1/8 yd 11.4, 1/4 yd 22.9, 1/2 yd 45.7, 1 yd 91.4.
@pytest.mark.parametrize(("yards", "centimetres"), [("1/8", "11.4"), ("1/4", "22.9"), ("1/2", "45.7"), ("1", "91.4")])
def test_cloth_is_as_long_as_the_charts_print_it(yards: str, centimetres: str) -> None:
    off = parse(f"{yards} yd").millimetres - parse(f"{centimetres} cm").millimetres
    assert abs(off) <= Fraction(1, 2)


# What patterns print for an inch measure. Published: Okla. 4-H No. 801 (1/4 in is 6 mm), a sewing handbook (1/8 in is
# 3 mm, 5/8 in is 1.5 cm), a conversion chart (the others). From memory: 7/8 in, 3/4 in as 2 cm and 2 in as 5 cm.
CONVENTIONS = [
    ("1/8 in", ["3 mm"]),
    ("1/4 in", ["6 mm"]),
    ("3/8 in", ["10 mm", "1 cm"]),
    ("1/2 in", ["12 mm", "1.3 cm"]),
    ("5/8 in", ["1.5 cm", "1.6 cm"]),
    ("3/4 in", ["19 mm", "2 cm"]),
    ("7/8 in", ["22 mm"]),
    ("1 in", ["2.5 cm"]),
    ("1 1/4 in", ["3.2 cm"]),
    ("1 1/2 in", ["3.8 cm"]),
    ("2 in", ["5.1 cm", "5 cm"]),
]


@pytest.mark.parametrize(("inches", "printed"), CONVENTIONS)
def test_a_convention_of_the_trade_is_within_a_millimetre_of_exact(inches: str, printed: list[str]) -> None:
    for metric in printed:
        assert abs(parse(metric).millimetres - parse(inches).millimetres) <= 1


@pytest.mark.parametrize(("inches", "printed"), CONVENTIONS)
def test_the_usual_rounding_is_one_that_the_trade_prints(inches: str, printed: list[str]) -> None:
    assert usual(parse(inches)) in [parse(metric) for metric in printed]


@given(eighths=st.integers(1, 16))
def test_the_usual_rounding_is_within_a_millimetre_up_to_two_inches(eighths: int) -> None:
    inches = Length(Fraction(eighths, 8), "in")
    assert abs(usual(inches).millimetres - inches.millimetres) <= 1


@given(first=EIGHTHS, second=EIGHTHS, unit=st.sampled_from(["in", "cm", "yd", "m"]))
def test_of_two_lengths_the_longer_is_not_rounded_to_the_shorter(first: Fraction, second: Fraction, unit: str) -> None:
    shorter, longer = sorted([Length(first, unit), Length(second, unit)])
    assert usual(shorter) <= usual(longer)


def test_a_house_s_own_row_comes_before_the_usual_one() -> None:
    """5/8 in is 1.5 cm in one house and 1.6 cm in another; what has no row is rounded as usual."""
    house = House({parse("5/8 in"): parse("1.5 cm")})
    assert str(house.other(parse("⅝ in"))) == "1.5 cm"
    assert str(house.other(parse("1/4 in"))) == "6 mm"


def test_in_metric_the_french_seam_adds_up_in_a_house_that_says_sixteen_millimetres() -> None:
    """3/8 in and 1/4 in are 5/8 in; 10 mm and 6 mm are 16 mm, so a house with 1.5 cm for 5/8 in is 1 mm short."""
    passes = [usual(parse("3/8 in")), usual(parse("1/4 in"))]
    assert sum(length.millimetres for length in passes) == 16
    assert usual(parse("5/8 in")) == parse("1.6 cm")


@given(amount=AMOUNTS, unit=st.sampled_from(["in", "yd"]))
def test_what_is_spelled_is_read_again_as_the_same_length(amount: Fraction, unit: str) -> None:
    length = Length(amount, unit)
    assert parse(str(length)) == length
    assert parse(spell(length).typeset.replace("⁄", "/").replace("\u202f", " ")) == length


@given(tenths=st.integers(1, 99_999), unit=st.sampled_from(["mm", "cm", "m"]))
def test_metric_is_spelled_with_a_decimal_point_and_read_again(tenths: int, unit: str) -> None:
    length = Length(Fraction(tenths, 10), unit)
    assert parse(str(length)) == length
    assert "/" not in str(length)


WAYS = ["1 5/8 in", "1-5/8 in", "1⅝ in", "1 ⅝ in.", "1⅝″", '1 5/8"', "1 5⁄8 inches", "1.625 in", " 1 5/8  inch "]


@pytest.mark.parametrize("written", WAYS)
def test_one_length_may_be_written_in_many_ways(written: str) -> None:
    assert parse(written) == Length(Fraction(13, 8), "in")
    assert str(parse(written)) == "1 5/8 in"


NONE = ["", "in", "5/8", "5/8 ells", "1/0 in", "five inches", "1,5 cm", "-1 in", "1e3 mm", "٣ in", "5 in 3", "in 5"]


@pytest.mark.parametrize("written", NONE)
def test_what_is_no_measure_says_so(written: str) -> None:
    with pytest.raises(BadLength, match="“"):
        parse(written)


@given(text=st.text(max_size=40))
def test_no_text_whatever_breaks_the_reading_of_measures(text: str) -> None:
    """It is a length or a BadLength; and what is found in prose lies where it is said to lie."""
    with contextlib.suppress(BadLength):
        assert parse(text).millimetres >= 0
    for start, end, length in find(text):
        assert length.written == text[start:end]


def lengths(text: str) -> list[str]:
    return [str(length) for _, _, length in find(text)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Stitch 1/2 in from the edge.", ["1/2 in"]),
        ("Stitch 1/2 in. from the edge, then ⅝″ and 3 mm.", ["1/2 in", "5/8 in", "3 mm"]),
        ("Cut a 1½-inch-wide strip, 2 yd long.", ["1 1/2 in", "2 yd"]),
        ('Trim to 1/4", then to 1/8".', ["1/4 in", "1/8 in"]),
        ("Press 5/8 in (1.5 cm) open.", ["5/8 in", "1.5 cm"]),
        ("It is 12.5 cm by 3 m.", ["12.5 cm", "3 m"]),
        ("4 İn is no unit, and 3 mm is one.", ["3 mm"]),
    ],
)
def test_measures_are_found_where_they_stand_in_prose(text: str, found: list[str]) -> None:
    assert lengths(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "Sew all 2 in the same way.",
        "Turn 3 in order of size.",
        "Sew size 12 in linen, as step 3 in white.",
        "Set the needle, 80/12 in linen and 90/14 in denim.",
        "The pieces marked “cut 2” and the “cut 4” ones.",
        'The pieces marked "cut 2" and those of size 14 "misses".',
        "Use 10 to 12 stitches to the inch.",
        "It takes 5 minutes; edition 1.2.3 in print.",
        "Sew the 5/8 inseam. Take 1,5 cm off.",
        "Divide 1/0 in half.",
    ],
)
def test_what_only_looks_like_a_measure_is_passed_over(text: str) -> None:
    assert lengths(text) == []


def test_a_measure_in_quotation_marks_keeps_its_own_inch_mark() -> None:
    assert lengths('It says “5/8" seam” and "a 1/4" hem" there.') == ["5/8 in", "1/4 in"]


@given(amount=AMOUNTS, unit=st.sampled_from(["in", "cm", "mm"]))
def test_a_spelled_length_is_found_again_within_a_sentence(amount: Fraction, unit: str) -> None:
    """But for metric amounts that have no end as decimals, which nobody writes."""
    length = Length(amount, unit)
    if "/" in str(length) and length.metric:
        return
    before = "Stitch "
    [(start, end, found)] = find(f"{before}{length} from the edge.")
    assert (start, end, found) == (len(before), len(before) + len(str(length)), length)


def test_nothing_is_a_float() -> None:
    """A tenth is a tenth, and ten of them are a whole."""
    assert parse("0.1 in") * 10 == parse("1 in")
    assert all(isinstance(parse(text).millimetres, Fraction) for text in ("0.1 in", "3 mm", "1/3 yd"))
    assert not math.isclose(float(parse("1/3 in").millimetres) * 3, 0)


@given(st.text('0123456789 ½⅝/⁄.,-"“”abcimny\u00a0', max_size=60))
def test_measures_are_tried_only_where_a_number_begins_and_none_is_lost(text: str) -> None:
    """The reference library's own search (Python's re) tries every place."""
    tried = [match.span() for match in reading._numbers_in(text)]
    assert tried == [match.span() for match in reading._expression(reading._IN_PROSE).finditer(text)]
