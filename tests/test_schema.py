"""`notchbook schema`: what an editor checks while a writer types agrees with what the tool itself reads."""

from __future__ import annotations

import copy
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from booklet.craft.load import operations
from booklet.pipeline import check_folder
from tests.command import DEMOS, ROOT, notchbook

STARTER = ROOT / "booklet" / "starter"
SOURCES = [
    *sorted(file for name in DEMOS for file in (ROOT / "steps" / name).glob("*.yaml")),
    *sorted(STARTER.glob("*.yaml")),
]
# The findings of the stages that read: what a schema can know of.
SHAPES = {"wrong-shape", "unknown-key", "unknown-word", "unknown-operation", "missing-key", "not-a-measure"}


class Core(yaml.SafeLoader):
    """YAML 1.2 as editors read it: the core schema (YAML 1.2.2, 10.3.2), in which `on` and `no` are words."""


Core.yaml_implicit_resolvers = {}
for tag, expression, first in (
    ("null", r"~|null|Null|NULL|", "~nN\0"),
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    for sign in first:
        Core.yaml_implicit_resolvers.setdefault(sign.replace("\0", ""), []).append(
            (f"tag:yaml.org,2002:{tag}", re.compile(rf"(?:{expression})\Z"))
        )


def load(text: str) -> Any:
    return yaml.load(text, Core)


@pytest.fixture(scope="module")
def schema() -> dict[str, Any]:
    done = notchbook("schema")
    assert (done.returncode, done.stderr) == (0, "")
    printed: dict[str, Any] = json.loads(done.stdout)
    return printed


@pytest.fixture(scope="module")
def validator(schema: dict[str, Any]) -> Draft202012Validator:
    return Draft202012Validator(schema)


def test_it_is_a_valid_schema_of_draft_2020_12(schema: dict[str, Any]) -> None:
    """By the published meta-schema, as the jsonschema library has it."""
    assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("file", SOURCES, ids=lambda file: f"{file.parent.name}/{file.name}")
def test_every_source_of_ours_is_valid(validator: Draft202012Validator, file: Path) -> None:
    """All demos and the starter, loaded as an editor loads them."""
    assert [error.message for error in validator.iter_errors(load(file.read_text(encoding="utf-8")))] == []


def test_every_operation_is_in_it_and_says_what_it_is(schema: dict[str, Any]) -> None:
    assert schema["$defs"].keys() == operations().keys()
    assert all(entry["properties"][name]["description"] for name, entry in schema["$defs"].items())


Change = Callable[[Any], Any]


def put(*path: str | int, value: Any = None, name: str | None = None) -> Change:
    """Sets a value, or gives the key another name."""

    def change(tree: Any) -> None:
        *way, last = path
        for key in way:
            tree = tree[key]
        if name is not None:
            tree[name] = tree.pop(last)
        elif value is None:
            del tree[last]
        else:
            tree[last] = value

    return change


WRONG: dict[str, tuple[str, Change]] = {
    "a misspelt key of the pattern": ("pattern.yaml", put("materials", name="materals")),
    "a misspelt key of a view": ("pattern.yaml", put("views", "A", "name", name="nmae")),
    "a misspelt key of a piece": ("pattern.yaml", put("pieces", "panel", "number", name="nubmer")),
    "a misspelt key of an edge": ("pattern.yaml", put("pieces", "panel", "edges", "top", "allowance", name="alowance")),
    "a misspelt key of a section": ("20-pouch.yaml", put("steps", name="step")),
    "a misspelt key of a step": ("20-pouch.yaml", put("steps", 0, "makes", name="mkaes")),
    "a misspelt key of an entry": ("20-pouch.yaml", put("steps", 0, "work", 1, "how", name="hwo")),
    "a misspelt key of a take": ("20-pouch.yaml", put("steps", 3, "film", 0, "setup", name="setpu")),
    "a misspelt key of the film": ("film.yaml", put("setups", name="set-ups")),
    "a key that another operation has": ("20-pouch.yaml", put("steps", 0, "work", 0, "turns", value=["1/2 in"])),
    "no studio": ("pattern.yaml", put("studio")),
    "no section": ("20-pouch.yaml", put("section")),
    "no title": ("20-pouch.yaml", put("steps", 0, "title")),
    "a list where keys should be": ("pattern.yaml", put("views", value=["A", "B"])),
    "keys where a list should be": ("20-pouch.yaml", put("steps", value={"seams": {"title": "Sew"}})),
    "words where keys should be": ("pattern.yaml", put("pieces", "panel", value="2")),
    "keys where words should be": ("20-pouch.yaml", put("steps", 0, "text", value={"say": "Sew."})),
    "a list where words should be": ("pattern.yaml", put("studio", value=["Your", "Studio"])),
    "a seam with one side": ("20-pouch.yaml", put("steps", 0, "work", 0, "sew", value="panel.side")),
    "a name in a list in a list": ("20-pouch.yaml", put("steps", 0, "work", 1, "finish", value=[["panel.side"]])),
    "keys where a name should be": ("10-pocket.yaml", put("steps", 0, "work", 0, "hem", value={"pocket": "top"})),
    "a measure with no unit": ("pattern.yaml", put("seam allowance", value="1/2")),
    "a measure that is a number": ("pattern.yaml", put("seam allowance", value=12)),
    "a measure with no number": ("20-pouch.yaml", put("steps", 1, "work", 0, "turns", value=["a little in"])),
    "a count in words": ("pattern.yaml", put("notions", 1, "count", value="two")),
    "a unit of no system": ("pattern.yaml", put("units", value="feet")),
    "a curve of no kind": ("pattern.yaml", put("pieces", "panel", "edges", "top", value={"curve": "wavy"})),
    "an unknown operation": ("20-pouch.yaml", put("steps", 0, "work", 2, "press", name="iron")),
    "an operation alone": ("20-pouch.yaml", put("steps", 0, "work", 2, value="press")),
    "an entry with nothing in it": ("20-pouch.yaml", put("steps", 0, "work", 2, value={})),
    "an unknown construction": ("20-pouch.yaml", put("steps", 0, "work", 0, "seam", value="frensh")),
}


@pytest.mark.parametrize("wrong", WRONG)
def test_what_is_wrong_is_wrong_for_the_editor_and_for_the_tool(
    validator: Draft202012Validator, tmp_path: Path, wrong: str
) -> None:
    """A slip that the schema rejects is also a finding of `check`, and the other way round."""
    name, change = WRONG[wrong]
    tree = load((STARTER / name).read_text(encoding="utf-8"))
    before = copy.deepcopy(tree)
    assert validator.is_valid(tree)
    change(tree)
    assert tree != before
    assert not validator.is_valid(tree)
    shutil.copytree(STARTER, tmp_path / "pouch")
    (tmp_path / "pouch" / name).write_text(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True), encoding="utf-8")
    assert {finding.rule for finding in check_folder(tmp_path / "pouch").findings} & SHAPES


RIGHT: dict[str, tuple[str, Change]] = {
    "an edition that is no text": ("pattern.yaml", put("edition", value=1.0)),
    "a glyph for a fraction": ("pattern.yaml", put("seam allowance", value="½ in")),
    "a mark for inches": ("pattern.yaml", put("seam allowance", value='1/2"')),
    "an amount a size": (
        "pattern.yaml",
        put("materials", "self", "amounts", "45 in", value={"A": ["3/8 yd"], "B": "1/2 yd"}),
    ),
    "a piece of its own name": ("pattern.yaml", put("pieces", "panel", "lines", value="fold line")),
    "an optional step": ("10-pocket.yaml", put("steps", 0, "optional", value=True)),
    "words of its own": ("20-pouch.yaml", put("steps", 0, "work", 0, "says", value="Sew round.")),
    "one step that comes first": ("20-pouch.yaml", put("steps", 1, "after", value="seams")),
}


@pytest.mark.parametrize("right", RIGHT)
def test_what_is_right_is_right_for_both(validator: Draft202012Validator, tmp_path: Path, right: str) -> None:
    """Every way of writing that the reference allows passes the editor too."""
    name, change = RIGHT[right]
    tree = load((STARTER / name).read_text(encoding="utf-8"))
    change(tree)
    assert [error.message for error in validator.iter_errors(tree)] == []
    shutil.copytree(STARTER, tmp_path / "pouch")
    (tmp_path / "pouch" / name).write_text(yaml.safe_dump(tree, sort_keys=False, allow_unicode=True), encoding="utf-8")
    assert {finding.rule for finding in check_folder(tmp_path / "pouch").findings} & SHAPES == set()


def reference(chapter: str) -> set[str]:
    """The keys in the first column of a chapter's table in steps/README.md."""
    text = (ROOT / "steps" / "README.md").read_text(encoding="utf-8")
    part = re.split(rf"^## {re.escape(chapter)}$", text, flags=re.MULTILINE)[1].split("\n## ")[0]
    cells = re.findall(r"^\| (`.+?`) \|", part, re.MULTILINE)
    return {key for cell in cells for key in re.findall(r"`([^`]+)`", cell)}


@pytest.mark.parametrize(
    ("chapter", "at"), [("`pattern.yaml`", ("anyOf", 0)), ("Steps", ("anyOf", 1, "properties", "steps", "items"))]
)
def test_the_reference_page_names_every_key(schema: dict[str, Any], chapter: str, at: tuple[Any, ...]) -> None:
    """And no other."""
    part: Any = schema
    for key in at:
        part = part[key]
    assert reference(chapter) == set(part["properties"])
