"""The step lists: one view, numbered, as Markdown and as plain text; what a writer wrote is text in both."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from booklet.plan.plan import Gap
from booklet.plan.prose import Block, Span, plain
from booklet.publish import text
from booklet.publish.outputs import page, report, steps
from tests.golden import check_golden
from tests.plan import small

COMMONMARK = MarkdownIt("commonmark")

HOSTILE = """\
  - id: hostile
    title: "<script>alert(1)</script> {{ x }} *not* #1"
    uses: [front]
    text: |
      <script>alert("{{ plan }}")</script> & &amp; [link](https://example.org) `code`

      No list: 1) ~~struck~~ snake_case_name ![x](y)
    tip: "# no heading"
    caution: "<b>bold</b> {% raw %}"
"""


def read_back(markdown: str) -> tuple[str, set[str]]:
    """The words that CommonMark shows, and the kinds of mark that it saw."""
    words: list[str] = []
    kinds: set[str] = set()
    for token in COMMONMARK.parse(markdown):
        kinds.add(token.type)
        for child in token.children or []:
            kinds.add(child.type)
            words.append(child.content if child.type == "text" else "\n" if child.type == "softbreak" else "")
        words.append("\n")
    return "".join(words), kinds


def list_of(tmp_path: Path, written: str, view: str = "A") -> tuple[str, str]:
    made = steps.files(small.edition(tmp_path, written))
    return made[f"steps/{view}.md"].decode(), made[f"steps/{view}.txt"].decode()


def test_what_looks_like_markup_is_printed_as_text(tmp_path: Path) -> None:
    """Neither a tag, a link, code nor a template is left; the words are all there, in both forms."""
    markdown, plain_text = list_of(tmp_path, HOSTILE)
    words, kinds = read_back(markdown)
    assert kinds <= {
        "heading_open", "heading_close", "inline", "paragraph_open", "paragraph_close", "text", "strong_open",
        "strong_close", "em_open", "em_close",
    }  # fmt: skip
    for written in (
        '<script>alert("{{ plan }}")</script> & &amp; [link](https://example.org) `code`',
        "No list: 1) ~~struck~~ snake_case_name ![x](y)",
        "<script>alert(1)</script> {{ x }} *not* #1",
        "# no heading",
        "<b>bold</b> {% raw %}",
    ):
        assert written in words
        assert written in " ".join(plain_text.split())


@settings(max_examples=400, deadline=None)
@given(st.text(st.sampled_from("ab1 \\`*_{}[]()#+-.!<>|~&;=:/"), min_size=1, max_size=40))
def test_any_text_reads_back_from_markdown_as_it_was(written: str) -> None:
    """Checked with markdown-it-py's CommonMark: one paragraph, no mark, the same signs."""
    line = " ".join(written.split())
    shown, kinds = read_back(text.markdown((Block("paragraph", (Span("text", line),)),)))
    assert shown.strip("\n") == line
    assert kinds <= {"paragraph_open", "inline", "text", "paragraph_close", "text_special"}


def test_emphasis_lists_and_measures_keep_their_form(tmp_path: Path) -> None:
    """Marks that the writer meant are marks again; a measure has a plain slash."""
    written = """\
  - id: one
    title: One
    uses: [front]
    text: |
      Lay them *wrong* sides together, 5/8 in from the edge.

      3. first
      4. second

      - a dash
"""
    markdown, plain_text = list_of(tmp_path, written)
    assert "*wrong* sides together, 5/8 in (1.5 cm) from the edge.\n\n3. first\n4. second\n\n- a dash" in markdown
    assert "    3. first\n    4. second\n\n    - a dash\n" in plain_text


def test_codes_stand_in_the_markdown_and_nowhere_else(tmp_path: Path) -> None:
    """Who sets machines by them reads the editor's list; no home sewer meets one."""
    written = """\
  - id: join
    title: Join
    work:
      - {sew: [front.shoulder, back.shoulder], stitch: 401, class: SSa-1}
      - {press: open}
      - {topstitch: seam, at: 1/4 in, stitch: 301}
"""
    edition = small.edition(tmp_path, written)
    markdown, plain_text = list_of(tmp_path, written)
    assert "*Codes.* sew: 401 SSa-1; topstitch: 301." in markdown
    assert "401" not in plain_text
    for files in (page.files(edition), report.files(edition)):
        assert not any(b"SSa-1" in made for made in files.values())


@pytest.mark.parametrize("name", small.DEMOS)
def test_no_line_of_the_plain_list_is_longer_than_76(name: str) -> None:
    """It stands in a mail and on a small screen; nothing dangles at a line's end."""
    for path, made in steps.files(small.demo(name)).items():
        if path.endswith(".txt"):
            for line in made.decode().splitlines():
                assert len(line) <= text.WIDTH == 76
                assert line == line.rstrip()


@pytest.mark.parametrize("name", small.DEMOS)
def test_a_measure_is_never_broken_over_a_line(name: str) -> None:
    """`5/8 in` and the brackets after it stay together."""
    for path, made in steps.files(small.demo(name)).items():
        if path.endswith(".txt"):
            assert not re.search(r"[0-9]\n *(?:in|cm|mm|yd|m)\b|\b(?:in|cm|mm|yd|m)\n *\([0-9]", made.decode())


def numbered(made: str) -> Iterator[tuple[int, str]]:
    for match in re.finditer(r"^(?:### | ?)([0-9]+)\. (\S.*)$", made, re.MULTILINE):
        yield int(match[1]), match[2].removesuffix(" (optional)")


@pytest.mark.parametrize("name", small.DEMOS)
def test_a_number_means_the_same_step_in_every_list(name: str) -> None:
    """In Markdown and plain text of every view, and as the source counts them."""
    edition = small.demo(name)
    by_number = {step.number: step.title for step in edition.pattern.steps}
    for letter in edition.pattern.views:
        made = steps.files(edition)
        mine = [(step.number, by_number[step.number]) for step in edition.pattern.steps_of(letter)]
        assert list(numbered(made[f"steps/{letter}.md"].decode())) == mine
        assert list(numbered(made[f"steps/{letter}.txt"].decode())) == mine


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_list_says_what_the_plan_says(name: str) -> None:
    """Every word of a step, its cautions and its tip, the gaps and who is to be followed first."""
    edition = small.demo(name)
    for letter in edition.pattern.views:
        plan = edition.view_plan(letter)
        shown = " ".join(steps.files(edition)[f"steps/{letter}.txt"].decode().split())
        assert "the directions of their makers come first" in shown
        for section in plan.sections:
            for item in section.items:
                if isinstance(item, Gap):
                    assert f"({item.says})" in shown
                    continue
                for said in (item.text, item.tip, *(caution.says for caution in item.cautions)):
                    for block in said:
                        assert " ".join(plain((block,)).split()) in shown


@pytest.mark.parametrize("name", small.DEMOS)
def test_lists_are_as_they_were(name: str) -> None:
    """Golden outputs: a change in them is read before it is committed."""
    for path, made in steps.files(small.demo(name)).items():
        if path.endswith(".md"):
            check_golden(f"{name}/{path}", made)


def test_a_plain_list_is_as_it_was() -> None:
    """One golden plain text is enough: it has the same words."""
    path = "steps/B.txt"
    check_golden(f"pebble-joggers/{path}", steps.files(small.demo("pebble-joggers"))[path])


def test_a_views_letter_is_never_a_way_out_of_the_folder() -> None:
    """Whatever a writer calls a view, its file lies beside the others."""
    words = [text.file_word(letter) for letter in ("A", "../../x", "a/b", "..", "\0")]
    assert words == ["A", "______x", "a_b", "__", "_"]


WRONG = """\
  - id: sew
    title: Sew
    allow: {edge-left-raw: "the frayed edge is the look"}
    text: Sew.
    work: [{sew: [front.side, back.side]}]
"""


def test_the_report_tells_what_is_open_and_what_is_allowed(tmp_path: Path) -> None:
    """Found, allowed with the reason, and counted by view; in words and as JSON."""
    head = small.HEAD + 'allow: {edge-left-raw: "<b>the frayed edge</b> is the look"}\n'
    edition = small.edition(tmp_path, WRONG, head)
    made = report.files(edition)
    found = report.as_json(edition)
    assert found["findings"] == [one.as_json() for one in edition.findings if one.allowed is None]
    reasons = {one["reason"] for one in found["allowed"] if one["rule"] == "edge-left-raw"}
    assert reasons
    assert [view["letter"] for view in found["views"]] == ["A", "B", "C"]
    words = " ".join(made["report.txt"].decode().split())
    assert all(f"Reason: {reason}" in words for reason in reasons)
    for one in edition.findings:
        assert " ".join(one.says.split()) in words
        assert one.rule in words


@pytest.mark.parametrize("name", small.DEMOS)
def test_reports_are_as_they_were(name: str) -> None:
    """No date, no path of this machine, no order that changes: the same bytes each time."""
    made = report.files(small.demo(name))
    check_golden(f"{name}/report.txt", made["report.txt"])
    assert str(small.STEPS) not in made["report.json"].decode()
