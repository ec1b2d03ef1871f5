"""Every row of every table of the craft says where it comes from, in a way that a reader can follow."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import booklet.craft
from booklet.craft.load import operations, table

FOLDER = Path(booklet.craft.__file__).parent
TABLES = sorted(path.stem for path in FOLDER.glob("*.yaml"))
KINDS = ("published: ", "standard: ", "common practice, no source", "from memory", "our choice: ")
_PARTS = re.compile(r"; (?=published: |standard: |common practice|from memory|our choice)")
_YEAR = re.compile(r"\b(?:18|19|20)[0-9]{2}\b")
_STANDARD = re.compile(r"\b(?:ISO|EN|BS|ASTM|FED-STD|[0-9]+ CFR)[- ]?[A-Z]?[0-9]+")


def sources(rows: Any, at: str) -> Iterator[tuple[str, str]]:
    """Every value under `source`, or under a key that ends in it, at any depth, with the way to it."""
    if isinstance(rows, dict):
        for key, value in rows.items():
            if isinstance(value, str) and (key == "source" or key.endswith(" source")):
                yield f"{at} {key}", value
            else:
                yield from sources(value, f"{at} {key}")


def wrong_with(source: str) -> str:
    """What is wrong with the words of a source; "" where nothing is."""
    for part in _PARTS.split(source):
        if not part.startswith(KINDS):
            return f"of no known kind: {part}"
        if part.startswith("published: ") and not (
            _YEAR.search(part) or _STANDARD.search(part) or any(work in part for work in table("works"))
        ):
            return f"neither a year nor a work of works.yaml: {part}"
        if part.startswith("standard: ") and not _STANDARD.search(part):
            return f"no standard's number: {part}"
        if part.startswith("our choice: ") and len(part.split()) < 4:
            return f"no reason: {part}"
    return ""


@pytest.mark.parametrize("name", TABLES)
def test_every_row_has_a_source(name: str) -> None:
    """Its own, or that of a table whose rows all come from one. The works themselves are sources."""
    rows = table(name)
    if name == "works" or isinstance(rows.get("source"), str):
        return
    assert [key for key, row in rows.items() if not isinstance(row, dict) or "source" not in row] == []


@pytest.mark.parametrize("name", TABLES)
def test_every_source_is_of_a_known_kind(name: str) -> None:
    """A standard with its number, a publication with its title and year, common practice, memory, or a choice with its
    reason."""
    assert {at: fault for at, source in sources(table(name), name) if (fault := wrong_with(source))} == {}


@pytest.mark.parametrize(
    "source",
    [
        "a book",
        "published: a book",
        "standard: the usual",
        "our choice: yes",
        "published: L-87; standard: that of the trade",
        "",
    ],
)
def test_a_source_that_says_nothing_is_known_for_it(source: str) -> None:
    assert wrong_with(source)


def test_every_cited_work_says_its_title_its_maker_and_its_year() -> None:
    for name, row in table("works").items():
        assert row["title"]
        assert row["by"]
        assert row["year"] == "not given" or _YEAR.fullmatch(row["year"]), name


@pytest.mark.parametrize("name", TABLES)
def test_a_table_explains_its_columns(name: str) -> None:
    """Above it stands the question that it answers."""
    head = re.match(r"(?:#.*\n)+", (FOLDER / f"{name}.yaml").read_text(encoding="utf-8"))
    assert head
    assert "?" in head[0]


def test_every_tool_and_hazard_of_an_operation_is_a_row() -> None:
    for operation in operations().values():
        assert operation.tool in ("", *table("tools")), operation.name
        assert operation.hazard in ("", *table("cautions")), operation.name
    for name, row in table("tools").items():
        assert row.get("caution", "iron") in table("cautions"), name


def test_rows_speak_only_of_rows_that_there_are() -> None:
    """Stitches of finishes and hems, constructions of seam types, operations and notions of closures."""
    for name in ("finishes", "hems"):
        for row in table(name).values():
            assert set(row.get("stitches", ())) <= set(table("stitches"))
    for row in table("seam_types").values():
        for column, name in (("constructions", "constructions"), ("hems", "hems"), ("finishes", "finishes")):
            assert set(row.get(column, ())) <= set(table(name))
    for row in table("closures").values():
        assert set(row.get("operations", ())) <= set(operations())
        assert row.get("notion", "button") in table("notions")


def test_the_finishes_are_those_that_a_writer_can_ask_for() -> None:
    """Every word of `how:` is the `how` of one row."""
    from booklet.model.work import option_kind

    words = option_kind("finish").schema()["enum"]
    assert sorted(row["how"] for row in table("finishes").values() if "how" in row) == sorted(words)
