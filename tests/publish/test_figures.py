"""The figures as files: each once, named by its step, and named by the shot list and the step lists where they are."""

from __future__ import annotations

import csv
import io
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from booklet.pipeline import check_folder
from booklet.plan.plan import Art
from booklet.publish.edition import Edition
from booklet.publish.outputs import all_files, figures, steps
from tests.golden import check_golden
from tests.plan import small

PATTERNS = Path(__file__).parents[1] / "faults" / "patterns"
ART = '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="30mm"><path fill="#0b7" d="M0 0h9v9z"/></svg>\n'
DRAWN = """\
  - id: mine
    title: Sew the shoulders
    figure: {file: art/mine.svg, shows: "The shoulders [joined]"}
    work:
      - sew: [front.shoulder, back.shoulder]
        seam: french
        trim: 1/8 in
  - id: sides
    title: Sew the sides
    work:
      - sew: [front.side, back.side]
        seam: french
        trim: 1/8 in
"""


def test_figure_files_are_as_they_were() -> None:
    """Golden output of a pattern without outlines: the name of every file and what it shows."""
    read = check_folder(PATTERNS / "tarn-shirt")
    assert read.pattern is not None
    made = figures.files(Edition(read.name, read.pattern, read.benches, read.findings))
    titles = {path: ElementTree.fromstring(data)[0].text or "" for path, data in made.items()}
    check_golden("tarn-shirt/figures.txt", "".join(f"{path}  {title}\n" for path, title in titles.items()).encode())


@pytest.mark.parametrize("name", ["lantern-tote", "pebble-joggers"])
def test_each_figure_is_written_once_and_each_is_named(name: str) -> None:
    """By the shot list for the view that is filmed, and by the step lists, where every address leads to a file."""
    edition = small.demo(name)
    made = figures.files(edition)
    assert len(made) == len(set(made.values())) == len(set(edition.figure_files))
    lists = {path: data.decode() for path, data in steps.files(edition).items()}
    named = {path: re.findall(r"^!\[.*\]\(\.\./(.*)\)$", words, re.MULTILINE) for path, words in lists.items()}
    assert {one for each in named.values() for one in each} == set(made)
    assert not any(each for path, each in named.items() if path.endswith(".txt"))
    rows = list(csv.DictReader(io.StringIO(all_files(edition, "film", "shots")["film/shots.csv"].decode("utf-8-sig"))))
    files = edition.figure_files
    shown = {
        str(step.number): "; ".join(files[one] for one in step.figures if one in files) for step in edition.plan.steps
    }
    assert [row["Figure"] for row in rows] == [shown.get(row["Step"], "") for row in rows]
    assert sum(bool(row["Figure"]) for row in rows) > 4


def test_a_drawing_of_the_designer_stays_as_it_is(tmp_path: Path) -> None:
    """Its colours too; no figure is computed beside it, and the next step that needs the section has it."""
    (tmp_path / "art").mkdir()
    (tmp_path / "art" / "mine.svg").write_text(ART, encoding="utf-8")
    edition = small.edition(tmp_path, DRAWN)
    mine, sides = small.step(edition.plan, "mine"), small.step(edition.plan, "sides")
    assert mine.figures == (Art("art/mine.svg", "The shoulders [joined]"),)
    assert figures.files(edition)["figures/step-1.svg"] == ART.encode()
    assert [type(figure).__name__ for figure in sides.figures] == ["Section"]
    assert r"![The shoulders \[joined\]](../figures/step-1.svg)" in steps.files(edition)["steps/A.md"].decode()
    # Without its type, another without serifs stands in.
    assert b"font-family=\"'Source Sans 3', sans-serif\"" in figures.files(edition)["figures/step-2.svg"]
