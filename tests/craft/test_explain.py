"""`notchbook explain`: a page for every word of the craft, with its source, and its figure in words."""

from __future__ import annotations

import re

import pytest

from booklet.craft.load import constructions, operations, table
from booklet.draw.section import draw_section
from booklet.explain import explain
from booklet.explain.figure import shown, typical_work
from booklet.explain.kinds import KINDS
from booklet.explain.lookup import BETWEEN, words
from booklet.plan.plan import Section, Stage
from tests.craft.test_sources import wrong_with
from tests.draw.sections import FRENCH


def test_every_word_has_a_page_with_a_source_of_a_known_kind() -> None:
    """Rules too; so that nobody need believe a page."""
    for word in words():
        page, found = explain(word)
        assert found, word
        for part in page.split(BETWEEN):
            source = re.search(r"^Source: (.*(?:\n(?!\n|Cited|Source).*)*)", part, re.MULTILINE)
            assert source, word
            if " (must be mended)\n" not in part and " (look again)\n" not in part:
                assert not wrong_with(source[1]), (word, source[1])


@pytest.mark.parametrize("kind", list(KINDS))
def test_every_row_of_a_table_with_pages_is_found_by_its_name(kind: str) -> None:
    meanings = {meaning for found in words().values() for meaning in found}
    assert [name for name in table(kind) if (kind, name) not in meanings] == []


@pytest.mark.parametrize(
    ("word", "heads"),
    [
        ("hem", ["hem: an operation of `work`", "hem: a word of the trade"]),
        ("bind", ["bind: an operation of `work`", "bound: a seam finish", "bind: a word of the trade"]),
        ("iron", ["iron: a tool", "iron: a caution"]),
        ("Buttonhole", ["buttonhole: an operation of `work`", "buttonhole: a closure"]),
        ("part-made-later", ["part-made-later (must be mended)"]),
        ("blind hem", ["blind: a kind of hem", "blind hem: a word of the trade"]),
        ("301", ["lockstitch, 301: a stitch type of ISO 4915"]),
        ("zigzag stitch", ["zigzag lockstitch, 304: a stitch type of ISO 4915"]),
        ("ssae-2", ["French seam, SSae: a seam type of ASTM D6193"]),
        ("1.01.01", ["plain seam, SSa: a seam type of ASTM D6193"]),
        (
            "401 LSc-2",
            [
                "two-thread chainstitch, 401: a stitch type of ISO 4915",
                "flat felled seam, LSc: a seam type of ASTM D6193",
            ],
        ),
        ("LSd-2", ["LSd: a seam code of ASTM D6193"]),
        ("80/12", ["80: a machine needle's size"]),
        ("ham", ["pressing ham: a tool", "pressing ham: a word of the trade"]),
        ("hong-kong finish", ["hong kong: a seam finish", "Hong Kong finish: a word of the trade"]),
    ],
)
def test_a_word_shows_every_meaning_that_it_has(word: str, heads: list[str]) -> None:
    page, found = explain(word)
    assert found
    assert [part.splitlines()[0] for part in page.split(BETWEEN)] == heads


@pytest.mark.parametrize(
    ("word", "near"),
    [
        ("pressing hamm", "pressing ham"),
        ("overlok", "overlock"),
        ("lockstich", "lockstitch"),
        ("rolld hem", "rolled hem"),
    ],
)
def test_the_nearest_word_is_offered(word: str, near: str) -> None:
    page, found = explain(word)
    assert not found
    assert f"Did you mean “{near}”?" in page


@pytest.mark.parametrize("name", sorted(constructions()))
def test_the_page_of_a_construction_says_what_its_figure_shows(name: str) -> None:
    """The words are those that stand beside the drawing in a booklet."""
    figure = shown("constructions", name)
    assert figure.startswith("Section through the seam of ")
    assert figure in explain(name)[0]


def test_the_figure_of_a_page_is_the_one_that_a_booklet_draws() -> None:
    """The French seam of 3/8 and 1/4 in, pressed toward the back: the same request, drawn from its stages."""
    stages = (*FRENCH.stages[:2], Stage("fold"), *FRENCH.stages[3:])
    assert FRENCH.stages[2].op == "turn"
    request = Section("french", FRENCH.allowance, ("Front", "Back"), FRENCH.cloths, stages)
    ours = shown("constructions", "french")
    for number in ("3/8 in", "1/8 in", "1/4 in"):
        assert number in ours
    assert [line for line in draw_section(request).shows.split(". ") if "stitched" in line] == [
        line for line in ours.split(". ") if "stitched" in line
    ]


@pytest.mark.parametrize("name", ["trim", "grade", "understitch", "topstitch", "finish", "hem", "casing", "press"])
def test_what_is_seen_from_the_side_has_a_figure_too(name: str) -> None:
    assert "Figure, of a typical case: Section through the " in explain(name)[0]


def test_every_typical_case_is_sewn_without_a_fault_and_drawn() -> None:
    """A row of typical.yaml that sews nothing would leave its page bare in silence."""
    for kind, rows in table("typical").items():
        if isinstance(rows, dict):
            known = operations() if kind == "operations" else table(kind)
            for name in rows:
                assert name in known, name
                assert shown(kind, name), name


@pytest.mark.parametrize("name", sorted(name for name, row in table("hems").items() if "usual" in row))
def test_a_hem_is_drawn_with_its_usual_turns(name: str) -> None:
    figure = shown("hems", name)
    assert figure.startswith("Section through the hem of Front.")
    for turn in set(table("hems")[name]["usual"]["inch"]):
        assert turn in figure


def test_every_kind_of_hem_has_its_widths() -> None:
    """A row of hems.yaml says how, how wide and for what; its page shows all with both sources."""
    page, _ = explain("narrow hem")
    assert table("hems")["narrow"]["leaves"] in page
    assert f"Source of the width: {table('hems')['narrow']['width source']}" in page
    assert f"Source: {table('hems')['narrow']['source']}" in page


def test_a_row_that_is_not_seen_from_the_side_has_none() -> None:
    assert typical_work("tools", "iron") == []
    assert shown("tools", "iron") == ""


def test_a_whole_table_is_listed_for_who_knows_no_name() -> None:
    page, found = explain("needle size")
    assert found
    for nm, row in table("needle_sizes").items():
        assert re.search(rf"^  {nm} +US {row['us']}, ", page, re.MULTILINE)
