"""The printed booklet, read back by two readers that are not its maker: pypdf and pdfplumber."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from fontTools.ttLib import TTFont
from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject

from booklet.length import GLYPHS
from booklet.plan.plan import Art, Gap, Plan, PlanStep
from booklet.publish.booklet import FONTS, booklet_assets, booklet_html
from booklet.publish.pdf import write_pdf
from booklet.styles_folder import styles_folder
from tests.publish import sample, sample_drawings
from tests.publish.conftest import Printed

# In one process, so that the sample's booklets are set once.
pytestmark = pytest.mark.xdist_group("booklets")

MM = 72 / 25.4
# Sizes of paper in points: ISO 216 (A4 is 210 × 297 mm) and ANSI/ASME Y14.1 (A is 8.5 × 11 in).
A4, LETTER = (210 * MM, 297 * MM), (8.5 * 72, 11 * 72)
# Where words may stand, by look.md: 16 mm from the outer edge, 24 mm from the binding, which is left on odd pages.
OUTER, BINDING = 16 * MM, 24 * MM
HEAD_SIZE, STEP_SIZE = 19, 11.6


def plain(text: str) -> str:
    return " ".join(text.split())


def tree(reader: Any) -> Iterator[Any]:
    """The structure elements of a tagged PDF."""

    def walk(node: Any) -> Iterator[Any]:
        node = node.get_object() if isinstance(node, IndirectObject) else node
        if isinstance(node, ArrayObject):
            for kid in node:
                yield from walk(kid)
        elif isinstance(node, DictionaryObject) and "/S" in node:
            yield node
            yield from walk(node.get("/K", ArrayObject()))

    return walk(reader.trailer["/Root"]["/StructTreeRoot"]["/K"])


@pytest.mark.parametrize(("booklet", "size"), [("letter", LETTER), ("view_b", A4), ("draft", A4)])
def test_pages_have_the_size_of_the_paper_asked_for(
    booklet: str, size: tuple[float, float], request: pytest.FixtureRequest
) -> None:
    for page in request.getfixturevalue(booklet).reader.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.01)


def test_both_readers_count_the_same_pages_and_the_foot_numbers_them(printed: Printed) -> None:
    assert len(printed.reader.pages) == len(printed.pages) > 5
    for number, page in enumerate(printed.pages[1:], 2):
        assert page.crop((0, page.height - 20 * MM, page.width, page.height)).extract_text().split()[-1] == str(number)


def test_weasyprint_has_nothing_to_complain_of(printed: Printed) -> None:
    assert printed.log == []


def test_heads_and_step_titles_come_in_their_order(printed: Printed) -> None:
    plan = printed.plan
    titles = ["Contents", "Sizes and measurements", "Fabric and notions", "Pieces to cut", "Before you begin"]
    titles += ["Take care", "Reading the steps", "Key to the figures", "Terms used"]
    for section in plan.sections:
        titles += [section.title, *(f"{s.number} {s.title}" for s in section.items if isinstance(s, PlanStep))]
    body = printed.words[printed.words.index("The squares" if plan.view is None else "A step has") :]
    at = 0
    for title in titles[7:]:
        at = body.index(plain(title), at) + 1
    at = 0
    for title in titles[:7]:
        at = printed.words.index(title, at) + 1


def test_every_font_is_embedded_and_is_source_sans(printed: Printed) -> None:
    names = set()
    for page in printed.reader.pages:
        fonts: Any = page["/Resources"]
        for font in fonts["/Font"].values():
            descendant = font.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in descendant["/FontDescriptor"].get_object()
            names.add(str(descendant["/BaseFont"]).split("+")[1])
    assert names
    assert all(name.startswith("Source-Sans-3") for name in names), names


def test_code_and_braces_are_printed_as_text(letter: Printed) -> None:
    assert "Mark <script>alert(1)</script> and {{ braces }} & keep them" in letter.words
    assert "or {{ plan.title }} is a writer’s text" in letter.words


def test_the_same_plan_gives_the_same_bytes_from_any_folder(
    letter: Printed, set_booklet: Callable[..., Printed], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    assert set_booklet(sample.plan()).path.read_bytes() == letter.path.read_bytes()


def test_contents_name_the_pages_on_which_the_heads_stand(printed: Printed) -> None:
    page = printed.pages[1]
    lines = page.crop((0, 19 * MM, page.width, page.height - 20 * MM)).extract_text().splitlines()
    listed = {}
    for line in lines:
        if match := re.fullmatch(r"(.*?)(?: Steps? \d+(?: to \d+)?)? (\d+)", line):
            listed[match[1]] = int(match[2])
    stand = {}
    for number, page in enumerate(printed.pages[1:], 2):
        for line in page.extract_text_lines():
            if all(abs(char["size"] - HEAD_SIZE) < 0.1 for char in line["chars"]) and len(line["text"]) > 3:
                stand[line["text"]] = number
    del stand["Contents"]
    assert {section.title for section in printed.plan.sections} <= set(listed)
    assert listed == stand


def test_draft_stands_on_every_page_of_a_draft_and_nowhere_else(draft: Printed, letter: Printed) -> None:
    assert all("DRAFT" in page.extract_text() for page in draft.pages)
    assert not any("DRAFT" in page.extract_text().upper() for page in letter.pages)


def test_no_head_stands_at_the_foot_of_a_page(printed: Printed) -> None:
    """After every head, and every number of a step, more words follow on the same page."""
    for page in printed.pages[1:]:
        inside = page.crop((0, 19 * MM, page.width, page.height - 20 * MM))
        lines = inside.extract_text_lines()
        last = max((line for line in lines), key=lambda line: line["bottom"])
        sizes = {round(char["size"], 1) for char in last["chars"]}
        assert not sizes & {HEAD_SIZE, STEP_SIZE}, f"page {page.page_number} ends with {last['text']!r}"


def test_words_stay_inside_the_margins(printed: Printed) -> None:
    for page in printed.pages:
        left, right = (BINDING, OUTER) if page.page_number % 2 else (OUTER, BINDING)
        for char in page.chars:
            assert left - 3 <= char["x0"], (page.page_number, char["text"])
            assert char["x1"] <= page.width - right + 1, (page.page_number, char["text"])


def test_no_figure_runs_into_another_step(printed: Printed) -> None:
    """The grey cloth of the sample's figures never crosses the hairline, or the rule, that parts steps and sections."""
    for page in printed.pages:
        figures = [rect for rect in page.rects if rect["height"] > 20 and rect["width"] > 60 * MM]
        rules = [thing for thing in page.rects + page.lines if thing["width"] > 160 * MM and thing["height"] < 2]
        for figure in figures:
            assert figure["bottom"] < page.height - 20 * MM
            assert not [rule for rule in rules if figure["top"] + 1 < rule["top"] < figure["bottom"] - 1]
    assert any(rect["height"] > 20 and rect["width"] > 60 * MM for page in printed.pages for rect in page.rects)


def test_a_measure_is_never_broken_over_a_line(printed: Printed) -> None:
    """An inch measure in the steps is followed, on its line, by the metric one in brackets."""
    found = 0
    first = next(at for at, page in enumerate(printed.pages) if at > 1 and "Prepare the pieces" in page.extract_text())
    for page in printed.pages[first:]:
        for line in page.extract_text_lines():
            for match in re.finditer(r"\d*[½¼¾⅛⅜⅝⅞] in", line["text"]):
                assert re.match(r" \([\d.]+ [cm]m\)", line["text"][match.end() :]), line["text"]
                found += 1
    assert found > 5


def test_steps_for_some_views_say_so_in_words_and_squares(letter: Printed) -> None:
    assert re.search(r"3 Sew the pocket to the front C View C only · Optional", letter.words)
    assert re.search(r"7 Face the armholes A View A only", letter.words)
    assert re.search(r"8 Set in the sleeves B C Views B and C only", letter.words)
    assert re.search(r"12 Hem the top A B C Turn under", letter.words)


def test_a_booklet_of_one_view_has_its_steps_alone_and_a_line_for_each_gap(view_b: Printed) -> None:
    assert not re.search(r"Views? [A-C](, [A-C])*( and [A-C])? only", view_b.words)
    assert "Face the armholes" not in view_b.words
    assert "12 Hem the top Turn under" in view_b.words
    gaps = [item for section in view_b.plan.sections for item in section.items if isinstance(item, Gap)]
    assert gaps
    for gap in gaps:
        assert f"{gap.numbers} {gap.says}" in view_b.words


def test_edition_studio_and_scope_stand_on_the_last_page(printed: Printed) -> None:
    last = plain(printed.pages[-1].extract_text())
    assert "Example Studio" in last
    assert "dition 1.0" in last
    assert "the directions of their makers come first" in last


def test_running_heads_carry_the_pattern_and_the_section(letter: Printed) -> None:
    for page in letter.pages[1:]:
        head = page.crop((0, 0, page.width, 18 * MM)).extract_text()
        assert head.startswith("Millpond Top ")
        assert len(head) > len("Millpond Top ")
    assert letter.pages[0].crop((0, 0, letter.pages[0].width, 18 * MM)).extract_text() == ""


def test_the_file_is_tagged_titled_and_in_a_language(printed: Printed) -> None:
    """As PDF/UA-1 asks: Matterhorn Protocol 1.1, conditions 06-003, 07-001, 11-006, 13-004, 14-002 and 15-003."""
    root: Any = printed.reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert printed.reader.metadata is not None
    assert str(printed.reader.metadata.title).startswith("Millpond Top")
    elements = list(tree(printed.reader))
    kinds = [str(element["/S"]) for element in elements]
    assert [kind for kind in kinds if re.fullmatch(r"/H\d", kind)][:2] == ["/H1", "/H2"]
    assert all(element.get("/Alt") for element in elements if element["/S"] == "/Figure")
    assert kinds.count("/Figure") > 5
    assert all("/Scope" in element["/A"] for element in elements if element["/S"] == "/TH")


def test_running_heads_are_no_content_of_the_file(letter: Printed) -> None:
    """Matterhorn Protocol 1.1, condition 01-005: what is not tagged is an artifact."""
    page: Any = letter.reader.pages[3]
    marked = set(re.findall(rb"/MCID (\d+)", page.get_contents().get_data()))
    reference = page.indirect_reference
    read = {
        str(kid).encode()
        for element in tree(letter.reader)
        if "/Pg" in element and element.raw_get("/Pg") == reference
        for kid in element.get("/K", ())
        if isinstance(kid, int)
    }
    assert marked == read
    assert page.get_contents().get_data().count(b"/Pagination") == 4


def test_outline_lists_sections_and_numbered_steps(letter: Printed) -> None:
    outline: list[Any] = letter.reader.outline
    heads = ["" if isinstance(one, list) else one.title for one in outline]
    at = heads.index("Prepare the pieces")
    assert [one.title for one in outline[at + 1]][:2] == ["1 Staystitch the curves", "2 Fuse the interfacing"]


def test_a_step_number_in_the_text_leads_to_the_step(letter: Printed) -> None:
    targets = letter.reader.named_destinations
    on_page = next(page for page in letter.reader.pages if "Pin the facing from step" in page.extract_text())
    links = {annotation.get_object()["/Dest"] for annotation in on_page["/Annots"]}  # type: ignore[attr-defined]
    assert {"step-6", "step-1"} <= links
    step_one = letter.reader.get_destination_page_number(targets["step-1"])
    assert step_one is not None
    assert "Staystitch the curves" in letter.reader.pages[step_one].extract_text()


def test_every_sign_that_a_booklet_prints_is_in_the_bundled_type(printed: Printed) -> None:
    signs = set("".join(page.extract_text() for page in printed.reader.pages)) - {"\n"}
    texts = [*Path("booklet/publish/templates").glob("*.html"), Path("booklet/publish/wording.py")]
    root = styles_folder().parent
    signs |= set("".join((root / text).read_text(encoding="utf-8") for text in texts)) - {"\n"}
    signs |= {*GLYPHS.values(), "⁄", "×", "−", "″", "\N{NO-BREAK SPACE}", "\N{NARROW NO-BREAK SPACE}"}
    for name in FONTS:
        has = set(map(chr, TTFont(styles_folder() / "fonts" / name).getBestCmap()))
        assert not signs - has, f"{name} lacks {sorted(signs - has)}"


def test_a_sign_that_the_type_lacks_is_said(tmp_path: Path) -> None:
    plan = replace(sample.plan(), title="Millpond ✂ Top")
    drawings, key = sample_drawings.drawings(), sample_drawings.key()
    log = write_pdf(booklet_html(plan, drawings, key, "a4"), booklet_assets(drawings, key), tmp_path / "a.pdf")
    assert log == ["The booklet’s type has no sign for “✂”; use another"]


@pytest.mark.parametrize("address", ["missing.svg", "file:///etc/passwd", "https://example.org/a.svg", "../a.svg"])
def test_nothing_is_read_but_what_was_given(address: str, tmp_path: Path) -> None:
    html = f'<html lang="en"><title>T</title><h1>T</h1><img alt="x" src="{address}">'
    log = write_pdf(html, {}, tmp_path / "a.pdf")
    assert any("not part of this booklet" in sentence and address.strip("./") in sentence for sentence in log)


def only_step(**changed: Any) -> Plan:
    """The sample with nothing but its first step, changed: long layouts are costly, and nothing else is looked at."""
    plan = sample.plan()
    first = plan.sections[0].items[0]
    assert isinstance(first, PlanStep)
    plan.sections = [replace(plan.sections[0], items=[replace(first, **changed)])]
    return replace(plan, charts=[], fabrics=[], notions=[], pieces=[], terms=[], cautions=[], branches=None, map=None)


def test_a_step_longer_than_a_page_is_set_whole(set_booklet: Callable[..., Printed]) -> None:
    figures = (sample.FACED, sample.HEM, sample.POCKET, sample.FACED, sample.SHOULDER)
    text = sample.say(*(f"Sentence number {number} of a step without end." for number in range(40)))
    printed = set_booklet(only_step(text=text, figures=figures))
    assert printed.log == []
    at = 0
    for number in range(40):
        at = printed.words.index(f"Sentence number {number} ", at)


def test_a_long_step_goes_on_over_a_page_under_its_number(set_booklet: Callable[..., Printed]) -> None:
    """Between its rows of figures; the number stands again, in grey, where the page begins in the middle of a step."""
    lines = sample.say(*(f"Sentence number {number} of a long step." for number in range(24)))
    figures = (sample.FACED, sample.POCKET, sample.FACED, sample.POCKET, sample.FACED)
    printed = set_booklet(only_step(text=lines, figures=figures))
    begun = next(at for at, page in enumerate(printed.pages) if "Sentence number 0 " in plain(page.extract_text()))
    assert "Sentence number 23 " in plain(printed.pages[begun].extract_text())

    def again(page: Any) -> str:
        margin = page.crop((0, 19 * MM, BINDING + 20 * MM, page.height - 20 * MM)).chars
        return "".join(one["text"] for one in margin if abs(one["size"] - HEAD_SIZE) < 0.1 and one["text"].isdigit())

    grey = [again(page) for page in printed.pages[begun:]]
    assert grey[:2] == ["1", "1"], "its own number, and again where it goes on"
    assert not any(grey[2:])


def test_a_cover_without_drawings_lists_the_views(set_booklet: Callable[..., Printed]) -> None:
    plan = sample.plan()
    plan.views = [view._replace(figure=None) for view in plan.views]
    cover = plain(set_booklet(plan).pages[0].extract_text())
    assert cover == "Millpond Top Sizes 6 to 24 A Sleeveless top B Short-sleeved top C Long-sleeved top with a pocket"


def test_art_is_shown_as_every_figure_is(letter: Printed) -> None:
    alts = {str(element.get("/Alt")) for element in tree(letter.reader)}
    art = [figure for figure in letter.plan.figures if isinstance(figure, Art)]
    assert art
    assert {figure.shows for figure in art} <= alts
