"""The arithmetic of French seams, felled seams and hems, against the bulletins and books that teach it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.check.engine import rules
from booklet.check.numbers import limit
from booklet.finding import Place
from booklet.length import Length, parse
from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern
from booklet.read.document import read_document
from booklet.read.faults import Faults
from booklet.read.folder import Source
from booklet.read.tree import Mapping
from booklet.sew.view import sew_view

PATTERN = """\
pattern: Arithmetic
studio: Tests
edition: "1"
seam allowance: {allowance}
views: {{A: {{name: One}}}}
materials: {{self: {{name: Cloth}}}}
pieces:
  front: {{number: 1, cut: {{self: 1}}, edges: {{side: {{}}, top: {{}}}}}}
  back: {{number: 2, cut: {{self: 1}}, edges: {{side: {{}}, top: {{}}}}}}
"""
STEPS = "section: One\nsteps:\n  - {{id: one, title: One, work: [{{{entry}}}]}}\n"
SIXTEENTHS = st.integers(1, 40).map(lambda count: Length(Fraction(count, 16), "in"))
ALLOWANCES = st.integers(8, 40).map(lambda count: Length(Fraction(count, 16), "in"))


def pattern_of(allowance: str, entry: str) -> Pattern:
    """A pattern of two pieces, all of whose edges have one allowance, with one entry of work; no file is written."""
    faults = Faults()
    trees: dict[str, Mapping] = {}
    texts = {"pattern.yaml": PATTERN.format(allowance=allowance), "10.yaml": STEPS.format(entry=entry)}
    for name, text in texts.items():
        tree = read_document(name, text, faults)
        assert isinstance(tree, Mapping)
        trees[name] = tree
    pattern = build_pattern(Source("", texts, trees), faults)
    assert pattern is not None
    assert faults.findings == []
    return pattern


def said(rule: str, allowance: str, entry: str) -> list[str]:
    """The sentences of one rule."""
    pattern = pattern_of(allowance, entry)
    found = list(rules()[rule].find(sew_view(pattern, pattern.views["A"])))
    assert all(isinstance(item.place, Place) and item.mend for item in found)
    return [item.says for item in found]


def french(passes: str, trim: str = "") -> str:
    return f"sew: [front.side, back.side], seam: french, passes: [{passes}]{f', trim: {trim}' if trim else ''}"


def felled(trim: str, width: str, how: str = "flat felled") -> str:
    return f"sew: [front.side, back.side], seam: {how}, trim: {trim}, width: {width}"


FRENCH = [
    # "sew 3/8 inch from the raw edge. Trim close … then sew 1/4 inch from folded edge": Oklahoma Coop. Ext., 4-H
    # Fabrics & Fashions No. 810. Close is 1/8 in.
    ("5/8 in", "3/8 in, 1/4 in", "1/8 in"),
    # "sew a plain seam using a 1/4" SA": Central Washington Univ. costume text, ch. 21; the rest of 5/8 in is 3/8 in.
    ("5/8 in", "1/4 in, 3/8 in", "1/8 in"),
    # The same in metric, computed: 1 cm and 6 mm are 1.6 cm.
    ("1.6 cm", "1 cm, 6 mm", "3 mm"),
]


@pytest.mark.parametrize(("allowance", "passes", "trim"), FRENCH)
def test_a_french_seam_as_the_bulletins_teach_it_is_in_order(allowance: str, passes: str, trim: str) -> None:
    assert said("french-arithmetic", allowance, french(passes, trim)) == []


def test_one_and_a_half_centimetres_can_t_hold_passes_of_10_and_6_mm() -> None:
    """The usual 1.5 cm for 5/8 in is 1 mm less than 3/8 in and 1/4 in come to in metric. Computed."""
    [sentence] = said("french-arithmetic", "1.5 cm", french("1 cm, 6 mm"))
    assert "1 cm + 6 mm = 1.6 cm" in sentence


@settings(max_examples=60, deadline=None)
@given(allowance=ALLOWANCES, first=SIXTEENTHS, second=SIXTEENTHS)
def test_two_passes_are_in_order_exactly_when_they_add_up_to_the_allowance(
    allowance: Length, first: Length, second: Length
) -> None:
    found = said("french-arithmetic", str(allowance), french(f"{first}, {second}"))
    assert (found == []) == (first.millimetres + second.millimetres == allowance.millimetres)


@settings(max_examples=40, deadline=None)
@given(allowance=ALLOWANCES, share=st.integers(1, 39), trim=SIXTEENTHS)
def test_the_second_pass_encloses_the_trimmed_edges(allowance: Length, share: int, trim: Length) -> None:
    """Beyond the first row, trimmed edges stand by `trim`, and the second row lies at `second`."""
    first = allowance * Fraction(share, 40)
    second = allowance - first
    found = said("french-arithmetic", str(allowance), french(f"{first}, {second}", str(trim)))
    assert (found == []) == (trim < second and trim < first)


def test_a_french_seam_needs_half_an_inch() -> None:
    """Two passes of 1/4 in, the narrowest that either source has. Our choice."""
    assert limit("least french") == parse("1/2 in")
    assert said("french-arithmetic", "1/2 in", french("1/4 in, 1/4 in")) == []
    assert len(said("french-arithmetic", "7/16 in", french("1/4 in, 3/16 in"))) == 1


FELLED = [
    # 5/8 in, "Trim the underneath SA only to 1/4"", fold the other over it: Central Washington Univ. costume text,
    # ch. 21; the fold at 3/8 in, the wider of 1/4 to 3/8 in.
    ("5/8 in", "1/4 in", "3/8 in"),
    # "1/4" seam is the accepted width": Garments for Girls, Shirt Waist, part 2; it needs an allowance of 1/2 in.
    ("1/2 in", "1/8 in", "1/4 in"),
    # One allowance trimmed to about half, the other folded over it. Common practice, no source.
    ("1.6 cm", "8 mm", "8 mm"),
]


@pytest.mark.parametrize(("allowance", "trim", "width"), FELLED)
def test_a_felled_seam_as_the_books_teach_it_is_in_order(allowance: str, trim: str, width: str) -> None:
    assert said("felled-arithmetic", allowance, felled(trim, width)) == []


@settings(max_examples=60, deadline=None)
@given(allowance=ALLOWANCES, trim=SIXTEENTHS, width=SIXTEENTHS)
def test_a_felled_seam_is_in_order_exactly_when_its_layers_lie_as_they_should(
    allowance: Length, trim: Length, width: Length
) -> None:
    """From the seam, the under layer lies from 0 to trim, the upper one from 0 to width and back by what is left."""
    a, t, w = allowance.millimetres, trim.millimetres, width.millimetres
    left_to_turn = a - w
    end_of_turned = w - left_to_turn
    covered = t <= w
    assert (said("felled-arithmetic", str(allowance), felled(str(trim), str(width))) == []) == (
        left_to_turn > 0 and end_of_turned >= 0 and covered
    )


@settings(max_examples=30, deadline=None)
@given(allowance=ALLOWANCES, trim=SIXTEENTHS, width=SIXTEENTHS)
def test_a_mock_felled_seam_catches_its_edge_and_covers_the_under_layer(
    allowance: Length, trim: Length, width: Length
) -> None:
    found = said("felled-arithmetic", str(allowance), felled(str(trim), str(width), "mock felled"))
    assert (found == []) == (width < allowance and trim <= width)


HEMS = [
    # Narrow: fold 1/4 in, fold again: Utah State/Oregon State Ext., 4-H L-87, It's Fun to Sew.
    ("1/2 in", "1/4 in, 1/4 in"),
    # A wide hem of 2 to 3 in with its edge turned under 1/4 in: ibid.
    ("2 1/2 in", "1/4 in, 2 1/4 in"),
    # Trim to 1 in from the fold, turn the raw edge to meet the fold: Goodheart-Willcox (2012), p. 464.
    ("1 in", "1/2 in, 1/2 in"),
    # Folded twice, 1.5 cm in all at most: an Alberta distance-learning page on hems.
    ("1.5 cm", "7 mm, 8 mm"),
]


@pytest.mark.parametrize(("allowance", "turns"), HEMS)
@pytest.mark.parametrize("operation", ["hem", "casing"])
def test_a_hem_as_the_bulletins_teach_it_is_in_order(operation: str, allowance: str, turns: str) -> None:
    """A casing is a hem with something threaded through it."""
    assert said(f"{operation}-turns-differ", allowance, f"{operation}: front.side, turns: [{turns}]") == []


@settings(max_examples=40, deadline=None)
@given(allowance=ALLOWANCES, turns=st.lists(SIXTEENTHS, min_size=1, max_size=3))
def test_turns_are_in_order_exactly_when_they_add_up_to_the_allowance(allowance: Length, turns: list[Length]) -> None:
    found = said("hem-turns-differ", str(allowance), f"hem: front.side, turns: [{', '.join(map(str, turns))}]")
    assert (found == []) == (sum(turn.millimetres for turn in turns) == allowance.millimetres)


@settings(max_examples=40, deadline=None)
@given(allowance=ALLOWANCES, turns=st.lists(SIXTEENTHS, min_size=1, max_size=3))
def test_the_turns_that_a_mend_proposes_add_up(allowance: Length, turns: list[Length]) -> None:
    pattern = pattern_of(str(allowance), f"hem: front.side, turns: [{', '.join(map(str, turns))}]")
    for item in rules()["hem-turns-differ"].find(sew_view(pattern, pattern.views["A"])):
        proposed = item.mend.partition("[")[2].partition("]")[0].split(", ")
        assert sum(parse(turn).millimetres for turn in proposed) == allowance.millimetres


# "1/8 in or less from the seam line (toward the cut edge)": Goodheart-Willcox (2012), p. 445; 1/2 in on a 5/8 in seam:
# Guideline 11.135 Staystitching.
@pytest.mark.parametrize(("at", "found"), [("1/2 in", 0), ("9/16 in", 0), ("11/16 in", 1)])
def test_staystitching_lies_inside_the_seam_line(at: str, found: int) -> None:
    assert len(said("staystitch-outside-allowance", "5/8 in", f"staystitch: front.side, at: {at}")) == found
    assert parse("5/8 in") - limit("staystitch inside seam") == parse("1/2 in")
