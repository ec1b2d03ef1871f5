"""The quick look at how much is said never counts too few."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from booklet.check.sentences import most_words_in
from booklet.check.spoken import words_said

PIECES = ["sew", "5/8 in", '⅝"', "1 1/2", "{piece: front}", "{}", "and/or", "(1.5 cm)", "it’s", "_", "{", "12"]


@given(st.lists(st.sampled_from(PIECES), max_size=12), st.sampled_from([" ", "", ", ", "\n\n"]))
def test_a_quick_look_never_counts_too_few_words(pieces: list[str], between: str) -> None:
    text = between.join(pieces)
    assert most_words_in(text) >= words_said(text)
