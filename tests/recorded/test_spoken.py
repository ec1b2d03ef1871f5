"""Numbers and measures as they are spoken, and words as they are misheard."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from booklet.length import Length, parse
from booklet.recorded.misheard import Known, likeness
from booklet.recorded.spoken import measures_in, stem, steps_named, tokens_of, words_of
from tests.recorded.speech import in_words


@pytest.mark.parametrize(
    ("spoken", "measures"),
    [
        ("five eighths of an inch", ["5/8 in"]),
        ("stitch at five eighths", ["5/8 in"]),
        ("a quarter inch seam", ["1/4 in"]),
        ("an inch and a half", ["1 1/2 in"]),
        ("one and a quarter inches", ["1 1/4 in"]),
        ("two inches and three eighths", ["2 3/8 in"]),
        ("five and one eighth inches", ["5 1/8 in"]),
        ('5 1/8" from the edge', ["5 1/8 in"]),
        ("one point five centimetres", ["1.5 cm"]),
        ("twenty five centimetres", ["25 cm"]),
        ("half an inch, then three quarters of an inch", ["1/2 in", "3/4 in"]),
        ("three eighths and a quarter of an inch", ["3/8 in", "1/4 in"]),
        ("cut two in lining", []),
        ("half of the other half", []),
        ("the first third of the film", []),
        ("step twelve", []),
        ("1/0 inch and 5/0", []),
    ],
)
def test_measures_as_they_are_spoken(spoken: str, measures: list[str]) -> None:
    assert [str(said.length) for said in measures_in(words_of(spoken))] == measures


@given(st.sampled_from([f"{whole}{top}/{bottom} in" for whole in ("", "1 ", "2 ", "11 ") for bottom in (2, 4, 8, 16)
                        for top in range(1, bottom, 2)] + ["1 in", "2 cm", "1.5 cm", "6 mm", "2 yd"]))  # fmt: skip
def test_a_printed_measure_read_out_is_the_same_measure(printed: str) -> None:
    length = parse(printed)
    assert [said.length for said in measures_in(words_of(f"sew it {in_words(length)} from there"))] == [length]


@given(st.text(max_size=60))
def test_no_words_break_the_reading(text: str) -> None:
    words = words_of(text)
    assert all(0 <= said.first <= said.last < len(words) for said in measures_in(words))
    tokens_of(words)


def test_numbers_of_steps() -> None:
    assert list(steps_named(words_of("Step twelve, not step number 3, or step by step"))) == [12, 3]


@pytest.mark.parametrize(
    ("one", "other"),
    [("pressing", "ironed"), ("stitches", "sewn"), ("trimmed", "trim"), ("zips", "zipper"), ("sleeves", "sleeve")],
)
def test_words_for_the_same_thing_have_one_stem(one: str, other: str) -> None:
    assert stem(one) == stem(other)


@pytest.mark.parametrize(("one", "other"), [("line", "lining"), ("open", "opening"), ("dart", "part")])
def test_words_for_other_things_have_not(one: str, other: str) -> None:
    assert stem(one) != stem(other)


def test_a_misheard_word_is_found_by_its_sound() -> None:
    known = Known(["facing", "dart", "selvedge", "neckline", "interfacing"])
    heard = {"phasing": "facing", "dark": "dart", "selvage": "selvedge", "necklace": "neckline"}
    assert {word: near.word for word in heard if (near := known.nearest(word))} == heard
    assert known.nearest("potato") is None
    assert likeness("button", "button") == 1.0


def test_a_bare_number_is_no_measure() -> None:
    assert measures_in(words_of("12")) == []
    assert measures_in(words_of("two and a half")) == []
    assert Length(1, "in") not in [said.length for said in measures_in(words_of("one"))]
