"""The views side by side, as the command tells them, as the booklet prints them and on the phone."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest

from booklet.publish.booklet import booklet_assets, booklet_html
from booklet.publish.branches import branches_json, branches_text
from booklet.publish.fronts import Fronts
from booklet.publish.outputs.page import page_html
from booklet.publish.pdf import write_pdf
from tests.golden import check_golden
from tests.plan.branching import branches, sections
from tests.plan.small import DEMOS, demo

HEAD = "Which steps are yours"


@pytest.mark.parametrize("name", DEMOS)
def test_the_views_of_a_demo(name: str) -> None:
    """Every run of steps, where branches leave and meet, what each view adds and drops; how pieces come together."""
    check_golden(f"{name}/views.txt", branches_text(demo(name).plan).encode())


def told(steps: str, letters: tuple[str, ...]) -> str:
    plan = demo("lantern-tote").plan
    views = [plan.views[0]._replace(letter=letter, name=f"The {letter} one") for letter in letters]
    made = branches(steps, letters) if len(letters) > 1 else None
    return branches_text(replace(plan, views=views, branches=made, sections=sections(steps, letters), map=None))


def test_one_view_alone_is_said_in_a_sentence() -> None:
    assert told("* *", ("A",)) == "Lantern Tote: 2 steps in one view, A, The A one. All are for it.\n"


def test_views_that_sew_the_same_have_no_branches() -> None:
    assert told("* | *", ("A", "B")).endswith("\n\nEvery view sews every step: no branch leaves.\n")


def test_a_pattern_may_begin_and_end_apart() -> None:
    """And a view may have nothing more to sew."""
    text = told("A * C", ("A", "B", "C"))
    assert "  From the first step, until step 2: A sews 1; B and C go straight on to 2.\n" in text
    assert "  After step 2, to the last step: C sews 3; A and B have no more to sew.\n" in text


def test_no_step_in_common() -> None:
    text = told("A B", ("A", "B"))
    assert "  From the first step, to the last step: A sews 1; B sews 2.\n" in text
    assert "  Shared by all: none\n" in text


def test_columns_are_as_wide_as_the_names_of_their_views() -> None:
    text = told("* Long", ("Short", "Long"))
    assert "  1  Short Long  Sew the seam of the part 1\n" in text
    assert "  2  ·     Long  Sew the seam of the part 2\n" in text


def test_as_an_object() -> None:
    """Steps by number; where branches leave and meet; what each view adds, with whom, and drops."""
    made = branches_json(demo("saltmarsh-tunic").plan)
    assert list(made) == ["pattern", "title", "shared", "views", "branches", "joints", "steps"]
    assert made["joints"][-1] == {
        "steps": [{"number": 41, "views": ["B", "C"]}],
        "to": "body",
        "enters": [{"name": "sleeves", "views": ["B"]}, {"name": "sleeves", "views": ["C"]}],
        "makes": "",
    }
    first = made["views"][0]
    assert first["letter"] == "A"
    assert first["adds"][0] == {"with": ["B"], "steps": [1]}
    assert sorted([*first["steps"], *first["drops"]]) == [step["number"] for step in made["steps"]]
    assert made["branches"][0] == {
        "after": None,
        "until": 3,
        "views": [{"letter": "A", "steps": [1, 2]}, {"letter": "B", "steps": [1]}],
    }
    assert [step["number"] for step in made["steps"] if len(step["views"]) == 3] == made["shared"]
    assert json.loads(json.dumps(made)) == made


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", DEMOS)
def test_the_booklet_of_all_views_draws_them(name: str, paper: str, tmp_path: Path) -> None:
    """With its alternative text, whole on one page, and WeasyPrint has nothing to complain of; the same bytes twice."""
    edition = demo(name)
    html = booklet_html(edition.plan, edition.drawings, edition.key, paper, edition.fronts)
    front = html.index('id="reading"')
    short = html[: html.index("<body")] + '<body data-pattern="" data-edition="" data-draft=""><section class="front" '
    short += html[front : html.index("</section>", front)] + "</section></body></html>"
    assets = booklet_assets(edition.drawings, edition.key, edition.fronts)
    files = [tmp_path / "one.pdf", tmp_path / "two.pdf"]
    assert [write_pdf(short, assets, file) for file in files] == [[], []]
    assert files[0].read_bytes() == files[1].read_bytes()
    pages = [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(files[0]).pages]
    (page,) = [page for page in pages if HEAD in page]
    assert edition.plan.branches is not None
    assert all(run.section in page for run in edition.plan.branches.runs)
    assert edition.fronts.branches is not None
    assert edition.fronts.branches.caption in page
    assert f'alt="{edition.fronts.branches.shows}"' in html


def test_a_booklet_of_one_view_does_not() -> None:
    edition = demo("lantern-tote")
    html = booklet_html(edition.view_plan("A"), edition.drawings, edition.key, "a4")
    assert HEAD not in html


def test_what_a_page_would_not_hold_is_said_in_sentences() -> None:
    edition = demo("lantern-tote")
    html = booklet_html(edition.plan, edition.drawings, edition.key, "a4", Fronts())
    assert "Both views share steps 1 to 12 and 18 to 24. Steps 13 to 15" in html


@pytest.mark.parametrize("name", DEMOS)
def test_the_phone_page_draws_them_narrow(name: str) -> None:
    """In the page itself, so that it uses its type; with the same title."""
    edition = demo(name)
    html = page_html(edition)
    assert html.count(f"<h3>{HEAD}</h3>") == 1
    figure = html[html.index('<div class="branches">') :]
    assert edition.fronts.branches is not None
    assert f"<title>{edition.fronts.branches.shows}</title>" in figure[: figure.index("</svg>")]
    assert 'width="62mm"' in figure[: figure.index(">", figure.index("<svg"))]
