"""What wardrobes need, one small garment for each way of the hands: each sews, and each of its faults is caught.

A file of wardrobe/ holds keys of pattern.yaml, `steps:` and `broken:`, a list of faults: `change` takes words of the
file and what stands in their place, `rule` is the rule that must name it, or several of which one must.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from booklet.pipeline import Checked, check_folder
from booklet.plan.prose import plain
from booklet.plan.stages import Course
from booklet.plan.words import work_prose
from booklet.plan.write import Writer

WARDROBE = sorted((Path(__file__).parent / "wardrobe").glob("*.yaml"))
HEAD = {
    "pattern": "Wardrobe",
    "studio": "Tests",
    "edition": '"1.0"',
    "seam allowance": "5/8 in",
    "views": "{A: {name: The only one}}",
    "materials": "{self: {name: Cloth, amounts: {45 in: 1 yd}}}",
}
_BLOCK = re.compile(r"^(?=\S)", re.MULTILINE)


def checked(text: str, folder: Path) -> Checked:
    blocks = {block.split(":", 1)[0]: block for block in _BLOCK.split(text) if block.strip() and block[0] != "#"}
    blocks.pop("broken", None)
    steps = blocks.pop("steps")
    folder.mkdir(parents=True)
    head = {key: f"{key}: {value}\n" for key, value in HEAD.items()}
    (folder / "pattern.yaml").write_text("".join({**head, **blocks}.values()), encoding="utf-8")
    (folder / "10-steps.yaml").write_text(f"section: Sewing\n{steps}", encoding="utf-8")
    return check_folder(folder)


def faults(file: Path) -> list[dict[str, Any]]:
    broken: list[dict[str, Any]] = yaml.safe_load(file.read_text(encoding="utf-8"))["broken"]
    return broken


@pytest.mark.parametrize("file", WARDROBE, ids=lambda file: file.stem)
def test_it_sews(file: Path, tmp_path: Path) -> None:
    """Nothing is found, not even a warning."""
    found = checked(file.read_text(encoding="utf-8"), tmp_path / "pattern").findings
    assert [(finding.rule, finding.says, finding.mend) for finding in found] == []


@pytest.mark.parametrize("file", WARDROBE, ids=lambda file: file.stem)
def test_its_work_has_words(file: Path, tmp_path: Path) -> None:
    """A step with no text prints whole sentences: no field is left open."""
    made = checked(file.read_text(encoding="utf-8"), tmp_path / "pattern")
    assert made.pattern is not None
    writer = Writer(made.pattern)
    for bench in made.benches:
        acts = Course(bench).acts
        for step in bench.steps:
            words = plain(work_prose(made.pattern, step, acts.get(step.id, []), (bench.view.letter,), writer))
            assert "what the pattern says" not in words
            assert not set("{}[]") & set(words), words
            assert ",," not in words, words
            assert all(part.endswith(".") for part in words.split("\n\n"))


@pytest.mark.parametrize(
    ("file", "fault"),
    [(file, fault) for file in WARDROBE for fault in faults(file)],
    ids=lambda value: value.stem if isinstance(value, Path) else value["fault"].replace(" ", "-"),
)
def test_a_fault_is_caught(file: Path, fault: dict[str, Any], tmp_path: Path) -> None:
    """By the rule that is meant for it."""
    text = file.read_text(encoding="utf-8").partition("broken:")[0]
    for before, after in fault["change"].items():
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    meant = fault["rule"] if isinstance(fault["rule"], list) else [fault["rule"]]
    assert set(meant) & {finding.rule for finding in checked(text, tmp_path / "pattern").findings}
