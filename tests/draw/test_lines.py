"""Kinds of line are told apart without colour."""

from __future__ import annotations

from itertools import combinations

import pytest

from booklet.draw.ink import look

# kind: its dashes and its weight in points, as styles/figures.toml has them.
DASHED = {
    "stitching": ("dashes", "stitch"),
    "basting": ("baste", "rest"),
    "marked": ("chalk", "hand"),
    "hidden": ("hidden", "rest"),
    "centre": ("centre", "rest"),
}
# By how much must dash and gap together, or the weight, differ to be seen at a glance? From memory of cartographers'
# rules for line symbols: steps of a half more.
STEP = 1.5


@pytest.mark.parametrize(("one", "two"), list(combinations(DASHED, 2)))
def test_no_two_dashed_lines_are_alike_in_grey(one: str, two: str) -> None:
    """They differ by half as much again in the length of what is repeated, in their weight, or in dots between."""
    table = look()["pieces"]
    (a, a_weight), (b, b_weight) = DASHED[one], DASHED[two]
    repeated = sorted((sum(table[a]), sum(table[b])))
    weights = sorted((table[a_weight], table[b_weight]))
    dotted = len(table[a]) != len(table[b])
    assert dotted or repeated[1] / repeated[0] >= STEP or weights[1] / weights[0] >= STEP


def test_a_hidden_edge_shows_more_gaps_than_stitching() -> None:
    """An edge under a cloth is thin and open; stitching is strong and close."""
    table = look()["pieces"]
    assert table["hidden"][1] >= 2 * table["dashes"][1]
    assert table["stitch"] >= 2 * table["rest"]


def test_the_key_has_the_same_stitching_as_the_figures() -> None:
    assert look()["key_lines"]["stitching"] == look()["pieces"]["dashes"]
