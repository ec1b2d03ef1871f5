"""The shot list in its forms: tables, data, and a page that says the same."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable
from html import unescape
from itertools import pairwise
from pathlib import Path

import pytest

from booklet.plan.film.filming import Filmed
from booklet.plan.film.garment import Garment
from booklet.plan.plan import Shot
from booklet.publish.outputs import shots
from booklet.publish.shots.rows import Row, told_minutes
from booklet.publish.shots.sheet import shot_sheet
from tests.golden import check_golden
from tests.plan import small

STEPS = """\
  - id: one
    title: One
    text: Sew.
    work: [{sew: [front.side, back.side]}, {press: open}]
    film: [{setup: machine, show: "<b>x</b>", say: "Sew 5/8 in & press", note: [body measurements, button, slit]}]
  - {id: two, title: Two, text: Sew., work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
"""


def table(raw: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(raw.decode("utf-8-sig"), newline="")))


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_shot_list_reads_back(name: str) -> None:
    """By the csv module; in the order of the film in one file, and as it is filmed in the other."""
    made = shots.files(small.demo(name))
    rows = table(made["film/shots.csv"])
    planned, filming = small.demo(name).plan.films, small.demo(name).filming
    assert planned is not None
    assert filming is not None
    assert [int(row["Take"]) for row in rows] == [shot.take for shot in planned.shots]
    for row, shot in zip(rows, planned.shots, strict=True):
        assert row["Step"] == ("" if shot.step is None else str(shot.step))
        assert (row["Title"], row["Show"], row["Say"]) == (shot.step_title, shot.show, shot.say)
        assert float(row["Minutes"]) == shot.minutes
        assert row["Estimated"] == ("yes" if shot.estimated else "")
        assert bool(row["Camera"]) == bool(row["Set-up"])
    as_filmed = table(made["film/shots-as-filmed.csv"])
    assert [int(row["Take"]) for row in as_filmed] == [filmed.take for filmed in filming.takes]
    assert [int(row["Filmed"]) for row in as_filmed] == list(range(1, len(rows) + 1))
    assert sorted(as_filmed, key=lambda row: int(row["Take"])) == rows


@pytest.mark.parametrize("name", small.DEMOS)
def test_a_program_reads_the_same(name: str) -> None:
    """The JSON has the takes of the table, and the day's order as numbers of takes."""
    made = shots.files(small.demo(name))
    data = json.loads(made["film/shots.json"])
    rows = table(made["film/shots.csv"])
    assert [(take["take"], take["title"], take["say"], take["filmed"]) for take in data["takes"]] == [
        (int(row["Take"]), row["Title"], row["Say"], int(row["Filmed"])) for row in rows
    ]
    as_filmed = [take["take"] for take in sorted(data["takes"], key=lambda take: int(take["filmed"]))]
    assert data["filming"]["order"] == as_filmed
    setups = [data["takes"][take - 1]["setup"] for take in as_filmed]
    assert data["filming"]["changes"] == sum(one != other for one, other in pairwise(setups))


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_page_has_every_take_twice_with_a_box(name: str) -> None:
    """Once in each order; and nothing that it would have to fetch."""
    page = shots.files(small.demo(name))["film/shots.html"].decode()
    planned = small.demo(name).plan.films
    assert planned is not None
    assert [int(take) for take in re.findall(r'<span class="number">Take (\d+)</span>', page)] == [
        filmed.take
        for filmed in small.demo(name).filming.takes  # type: ignore[union-attr]
    ]
    assert len(re.findall(r"<tr><td><span class=\"box\"", page)) == len(planned.shots)
    assert not re.search(r"(?:src|href)=\"(?!data:)", page)


@pytest.mark.parametrize("start", ["=", "+", "-", "@"])
def test_no_cell_is_a_formula(start: str) -> None:
    """Source: OWASP, CSV Injection, from memory: a cell that would begin so begins with an apostrophe."""
    words = f'{start}HYPERLINK("x"),\n2'
    shot = Shot(1, 3, words, "machine", words, words, 1.5, True)
    row = Row(shot, Filmed(1, 1, 1, Garment((), (), None, "finished")), 1, words)
    (read,) = csv.DictReader(io.StringIO(shot_sheet([row], {}), newline=""))
    assert (read["Title"], read["Show"], read["Say"], read["Camera"]) == (f"'{words}",) * 4
    assert (read["Step"], read["Minutes"]) == ("3", "1.5")


@pytest.fixture
def page(tmp_path: Path) -> Callable[[str], str]:
    def made(film: str) -> str:
        return shots.files(small.edition(tmp_path, STEPS, film=film))["film/shots.html"].decode()

    return made


def test_what_a_writer_wrote_is_text(page: Callable[[str], str]) -> None:
    """No tag of theirs becomes one of the page's."""
    made = page("setups: {machine: '<i>a</i> & {{ b }}'}\n")
    assert "<b>x</b>" not in made
    assert "<i>a</i>" not in made
    assert "<b>x</b>" in unescape(made)
    assert "<i>a</i> & {{ b }}" in unescape(made)


def test_a_pattern_without_a_plan_has_a_list_too(page: Callable[[str], str]) -> None:
    """From its steps alone, with times that are estimates."""
    made = page("")
    assert "No set-up named" in made
    assert "about " in made


def test_a_note_that_is_a_name_is_shown_as_the_booklet_has_it(tmp_path: Path) -> None:
    """A notion with its size and number, any other words as they are."""
    head = small.HEAD + "charts: {body measurements: {unit: in, rows: {Bust: [34, 36]}}}\n"
    edition = small.edition(tmp_path, STEPS, head)
    (row, *_) = table(shots.files(edition)["film/shots.csv"])
    assert row["On screen"] == "Body measurements (chart); Button, 1/2 in (1.3 cm): 3; slit"


@pytest.mark.parametrize(
    ("minutes", "told"),
    [(0.5, "½ min"), (2, "2 min"), (2.5, "2½ min"), (0.3, "0.3 min"), (70, "1 h 10 min"), (120, "2 h"), (0, "0 min")],
)
def test_minutes_are_told_as_people_tell_them(minutes: float, told: str) -> None:
    assert told_minutes(minutes) == told


@pytest.mark.parametrize("name", small.DEMOS)
def test_shot_lists_are_as_they_were(name: str) -> None:
    """Golden outputs: a change in them is read before it is committed."""
    for path, made in shots.files(small.demo(name)).items():
        if path.endswith("shots.csv") or (name == "lantern-tote" and path.endswith((".csv", ".json"))):
            check_golden(f"{name}/{path}", made)
