"""The writer's text becomes prose: what is meant is read, and nothing that was written is lost."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.plan.prose import Block, Span, plain
from booklet.plan.write import Writer, capital, one_line
from tests.plan import small

STEPS = """\
  - {id: seams, title: Sew the seams, uses: [front], text: Sew.}
  - {id: hem, title: Hem, uses: [front], text: Hem.}
"""


@pytest.fixture(scope="module")
def writer(tmp_path_factory: pytest.TempPathFactory) -> Writer:
    return Writer(small.pattern(tmp_path_factory.mktemp("tarn-vest"), STEPS))


def test_blank_lines_part_paragraphs_and_lists_keep_their_numbers(writer: Writer) -> None:
    """Paragraphs, bullets and numbered items are blocks of their own, in their order."""
    prose = writer.prose("One\nline.\n\n3. third\n4. fourth\n\n- dash")
    assert [(block.kind, block.ordinal) for block in prose] == [
        ("paragraph", 0), ("number", 3), ("number", 4), ("bullet", 0),
    ]  # fmt: skip
    assert plain(prose) == "One line.\n\nthird\n\nfourth\n\ndash"


def test_emphasis_is_a_span_of_its_own(writer: Writer) -> None:
    """One star leans on a word, two make it strong."""
    (block,) = writer.prose("Lay them *wrong* sides **together**.")
    assert [(span.kind, span.text) for span in block.spans] == [
        ("text", "Lay them "), ("emphasis", "wrong"), ("text", " sides "), ("strong", "together"), ("text", "."),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "{{ plan.studio }} and {% raw %}",
        "[a link](https://example.org) <https://example.org> https://example.org ![x](y.png)",
        "&lt; &amp; &#x41;",
        "`code` ~~struck~~ # no head > no quote | no | table",
        "{step: nowhere} {piece: nothing} {stitch: 1/0}",
    ],
)
def test_what_is_no_mark_of_ours_stays_as_it_was_written(writer: Writer, text: str) -> None:
    """HTML, links, entities, template braces and unknown names are words."""
    assert plain(writer.prose(text)) == text


def test_indented_and_fenced_text_is_no_code(writer: Writer) -> None:
    """A writer who indents a paragraph means a paragraph."""
    assert plain(writer.prose("    four blanks\n\n```\nfence\n```")) == "four blanks\n\n``` fence ```"


def test_a_step_is_named_by_its_number_and_a_piece_by_name_and_number(writer: Writer) -> None:
    """Names are compared as everywhere: without regard to case and doubled blanks."""
    (block,) = writer.prose("As in step {step: HEM}, take the {piece: Neck  facing}.")
    assert block.spans == (
        Span("text", "As in step "),
        Span("step", "2", target="hem"),
        Span("text", ", take the "),
        Span("piece", "Neck facing (3)", target="neck facing"),
        Span("text", "."),
    )


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("Sew 5/8 in from the edge.", "Sew 5/8 in (1.5 cm) from the edge."),  # the house's own row
        ("Trim to ¼″.", "Trim to 1/4 in (6 mm)."),
        ("Cut 1 1/4 yd.", "Cut 1 1/4 yd (1.2 m)."),
        ("cloth 45 in wide", "cloth 45 in (115 cm) wide"),  # as long as 1 1/4 yd, and no cloth by the yard
        ("a 1.5 cm allowance", "a 1.5 cm (5/8 in) allowance"),
        ("leave 2 to 3 in open", "leave 2 in (5.1 cm) to 3 in (7.6 cm) open"),
        ("Use 10 to 12 stitches, and 2 in the hem.", "Use 10 to 12 stitches, and 2 in the hem."),
        ("size 80/12", "size 80/12"),
    ],
)
def test_measures_are_found_and_shown_in_both_systems(writer: Writer, written: str, read: str) -> None:
    """By the pattern's own table, else the usual rounding."""
    assert plain(writer.prose(written)) == read


@pytest.mark.parametrize("written", ["5/8 in (1.6 cm)", "5/8 in [1.6 cm]", "5/8 in / 1.6 cm", "⅝″ (16 mm)"])
def test_a_measure_given_in_both_systems_is_one(writer: Writer, written: str) -> None:
    """What the writer gave is shown, and not the house's rounding beside it."""
    (block,) = writer.prose(f"Sew {written} from the edge.")
    (span,) = [span for span in block.spans if span.kind == "measure"]
    assert span.text in ("5/8 in (1.6 cm)", "5/8 in (16 mm)")
    assert plain((block,)) == f"Sew {span.text} from the edge."


def test_two_measures_of_one_system_stay_two(writer: Writer) -> None:
    """Brackets round a second length of the same kind are the writer's own."""
    assert plain(writer.prose("1 in (1/2 in folded)")) == "1 in (2.5 cm) (1/2 in (1.3 cm) folded)"


def test_lists_without_end_are_words(writer: Writer) -> None:
    """Nesting as deep as a page of dashes neither fails nor swallows what it holds."""
    text = "- " * 400 + "end"
    assert plain(writer.prose(text)) == text


@settings(max_examples=300, deadline=None)
@given(st.text(st.sampled_from("ab 12/\n.-+*_>#<[](){}`~!|\\&;:½″in"), max_size=60))
def test_no_word_is_lost_whatever_the_signs(writer: Writer, text: str) -> None:
    """Every letter that was written is read, in its order."""
    letters = re.sub(r"[^ab]", "", text)
    assert re.sub(r"[^ab]", "", plain(writer.prose(text))) == letters


@given(st.text(max_size=80))
def test_titles_are_one_line_that_every_output_can_hold(text: str) -> None:
    """No break, no control character, no half of a surrogate pair."""
    line = one_line(text)
    assert "\n" not in line
    assert line == one_line(line)
    line.encode()


def test_a_piece_begins_with_a_capital_and_keeps_the_rest() -> None:
    """`lining A` does not become `Lining a`."""
    assert (capital("slit facing"), capital("lining A"), capital("")) == ("Slit facing", "Lining A", "")


def test_a_blank_line_in_folded_text_parts_paragraphs(tmp_path: Path) -> None:
    """YAML folds lines after `>`; the blank line that the writer left is still one."""
    made = small.plan(tmp_path, "  - id: sew\n    title: Sew\n    text: >\n      One\n      line.\n\n      Two.\n")
    assert small.step(made, "sew").text == (
        Block("paragraph", (Span("text", "One line."),)),
        Block("paragraph", (Span("text", "Two."),)),
    )
