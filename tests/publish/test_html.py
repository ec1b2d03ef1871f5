"""Prose, measures and tables as HTML: escaped, true fractions, aligned figures, no more columns than a page carries."""

from __future__ import annotations

import re
from typing import Literal

import pytest

from booklet.length import Length, parse, spell
from booklet.plan.plan import Chart, Fabric, FabricRow, Notion, PieceRow
from booklet.plan.prose import Block, Measure, Prose, Span
from booklet.publish.html import inline_html, measure_html, prose_html, view_words
from booklet.publish.tables import MOST_COLUMNS, chart_tables, fabric_tables, marks_html, notion_table, piece_table

THIRTY = tuple(str(size) for size in range(30))


def text(*words: str) -> Prose:
    return tuple(Block("paragraph", (Span("text", one),)) for one in words)


def measure(first: str, other: str | None = None) -> Measure:
    return Measure(spell(parse(first)), spell(parse(other)) if other else None)


def seen(html: str) -> str:
    return re.sub(r"<[^>]*>", "", html)


def test_whatever_a_writer_wrote_is_escaped() -> None:
    nasty = '<b a="1">&{{ x }}'
    kinds: tuple[Literal["text", "emphasis", "strong", "step", "piece"], ...]
    kinds = ("text", "emphasis", "strong", "step", "piece")
    prose = (Block("bullet", tuple(Span(kind, nasty, target=nasty) for kind in kinds)),)
    html = prose_html(prose, {})
    assert "<b a" not in html
    assert html.count("&lt;b a=&#34;1&#34;&gt;&amp;{{ ") == len(kinds)


def test_lists_keep_their_numbers_and_paragraphs_stand_apart() -> None:
    prose = (
        *text("One."),
        Block("number", (Span("text", "a"),), 3),
        Block("number", (Span("text", "b"),), 4),
        *text("Two."),
    )
    assert prose_html(prose, {}) == '<p>One.</p>\n<ol>\n<li value="3">a</li>\n<li value="4">b</li>\n</ol>\n<p>Two.</p>'
    assert inline_html(text("One.", "Two."), {}) == "One. Two."


def test_a_step_links_to_where_it_stands_and_to_nothing_when_it_is_left_out() -> None:
    prose = (Block("paragraph", (Span("step", "6", target="facings"),)),)
    assert prose_html(prose, {"facings": "step-6"}) == '<p><a class="step-number" href="#step-6">6</a></p>'
    assert "href" not in prose_html(prose, {})


@pytest.mark.parametrize(
    ("first", "other", "words"),
    [
        ("5/8 in", "1.5 cm", "⅝ in (1.5 cm)"),
        ("1 5/8 in", "4.1 cm", "1⅝ in (4.1 cm)"),
        ("3/16 in", "5 mm", "3⁄16 in (5 mm)"),
        ("1 3/16 in", "3 cm", "1 3⁄16 in (3 cm)"),
        ("1 cm", None, "1 cm"),
    ],
)
def test_measures_have_true_fractions_and_the_other_system_in_brackets(
    first: str, other: str | None, words: str
) -> None:
    html = seen(measure_html(measure(first, other)))
    assert html.replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ") == words


@pytest.mark.parametrize(
    ("letters", "words"), [("A", "View A"), ("AC", "Views A and C"), ("ABD", "Views A, B and D"), ("", "")]
)
def test_views_are_named_in_words(letters: str, words: str) -> None:
    assert view_words(letters) == words


def test_marks_hold_the_letters_of_the_views_that_sew_and_no_other() -> None:
    html = marks_html(("A", "C"), ("A", "B", "C"))
    assert seen(html).split() == ["A", "C"]
    assert html.count('class="mark') - html.count('class="marks') == 3


def test_sizes_stand_across_until_a_page_is_full_then_down() -> None:
    def chart(sizes: tuple[str, ...]) -> Chart:
        return Chart("Body", "in", sizes, (("Bust", sizes), ("Hip", sizes)), (), ())

    (across,) = chart_tables(chart(THIRTY[: MOST_COLUMNS - 1]))
    assert (across.columns, len(across.rows)) == (MOST_COLUMNS, 2)
    (down,) = chart_tables(chart(THIRTY))
    assert (down.columns, len(down.rows)) == (3, 30)


def test_no_table_is_wider_than_a_page() -> None:
    chart = Chart("Body", "in", THIRTY, tuple((f"Measure {n}", THIRTY) for n in range(25)), (), ())
    rows = tuple(FabricRow(("A",), measure("45 in"), tuple(measure("1 yd", "1 m") for _ in THIRTY)) for _ in range(9))
    views = [chr(ord("A") + n) for n in range(20)]
    notion = Notion(text("Thread"), {view: text("1") for view in views}, ())
    cuts = tuple((f"Material {n}", "2") for n in range(20))
    tables = [
        *chart_tables(chart),
        *fabric_tables(Fabric("Main", (), THIRTY, rows), True),
        notion_table([notion], views, {}),
        piece_table([PieceRow("1", "Front", cuts, ("A",))], ["A", "B"]),
    ]
    assert all(table.columns <= MOST_COLUMNS for table in tables)
    bust = [cell for table in tables[:3] for cell in table.head if cell.html.startswith("Measure")]
    assert len(bust) == 25


def test_wholes_stand_under_wholes_whatever_their_fractions() -> None:
    chart = Chart("Body", "in", ("6", "8"), (("Bust", ("31", "31½")), ("Hip", ("33.5", "n/a"))), (), ())
    (table,) = chart_tables(chart)
    slots = [re.search(r'part narrow">(.*?)<', cell.html) for row in table.rows for cell in row[1:]]
    assert [slot and slot[1] for slot in slots] == ["", "½", ".5", None]
    assert seen(table.rows[1][2].html) == "n/a"


def test_fabric_says_its_units_once_and_both_systems_in_each_column() -> None:
    amounts = (measure("1 5/8 yd", "1.5 m"), measure("2 yd", "1.8 m"))
    rows = (
        FabricRow(("A", "B"), measure("45 in", "115 cm"), amounts),
        FabricRow(("A",), measure("60 in"), amounts[:1]),
    )
    (table,) = fabric_tables(Fabric("Main", (), ("6", "8"), rows), True)
    first, second = ([seen(cell.html).replace("\N{NO-BREAK SPACE}", " ") for cell in row] for row in table.rows)
    assert first == ["Views A and B45 in wide (115 cm)", "ydm", "1⅝1.5", "21.8"]
    assert second == ["View A60 in wide", "1⅝ yd (1.5 m)"]
    assert table.columns == 4


def test_pieces_say_how_many_of_what_and_for_which_views() -> None:
    pieces = [
        PieceRow("1", "Front", (("Main", "1 on fold"),), ("A", "B")),
        PieceRow("2", "Pocket", (("Lining", "2"),), ("B",)),
    ]
    table = piece_table(pieces, ["A", "B"])
    assert [seen(cell.html) for cell in table.head] == ["", "Piece", "Main", "Lining", "Views"]
    assert [seen(cell.html).split() for cell in table.rows[1]] == [["2"], ["Pocket"], ["—"], ["2"], ["B"]]
    assert "Views" not in [seen(cell.html) for cell in piece_table(pieces, ["B"]).head]


def test_a_notion_that_a_view_does_not_need_is_a_dash() -> None:
    notion = Notion(text("Button"), {"A": text("5")}, text("shank"))
    table = notion_table([notion], ["A", "B"], {})
    assert [seen(cell.html) for cell in table.rows[0]] == ["Buttonshank", "5", "—"]


def test_equal_lengths_in_other_units_stay_as_they_were_written() -> None:
    mixed = (Measure(spell(Length(18, "in")), None), Measure(spell(Length(1, "yd")), None))
    (table,) = fabric_tables(Fabric("Main", (), ("6", "8"), (FabricRow(("A",), measure("45 in"), mixed),)), False)
    assert [seen(cell.html).replace("\N{NO-BREAK SPACE}", " ") for cell in table.rows[0]][2:] == ["18 in", "1 yd"]
