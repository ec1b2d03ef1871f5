"""Every rule has a fixture that fails and one that passes, a manual page, and examples that are run."""

from __future__ import annotations

import ast
import os
import re
from pathlib import Path

import pytest

from booklet.check.engine import rules
from tests.rules.harness import HERE, cases, checked_for, examples, findings, spelled, write_pattern

FIXTURES = sorted(HERE.glob("*.md"))
CASES = [(path, index) for path in FIXTURES for index in range(len(cases(path)))]
PACKAGE = HERE.parent.parent / "booklet"
SAYERS = ("add", "unreadable", "_stop")
SECTIONS = ("What it finds:", "Why it matters at the machine:", "Source:")
_SOURCE = re.compile(r"^Source: (published|standard|common practice, no source|from memory|our choice)", re.MULTILINE)


@pytest.mark.parametrize(("path", "index"), CASES, ids=[f"{path.stem}-{index + 1}" for path, index in CASES])
def test_a_fixture_finds_what_it_says(path: Path, index: int, tmp_path: Path) -> None:
    case = cases(path)[index]
    write_pattern(tmp_path / "fixture", case.snippet, case.files)
    checked = checked_for(tmp_path / "fixture", path.stem)
    assert not checked.unread or hasattr(rules()[path.stem], "FOUND_BY"), "the fixture itself can't be read"
    found = spelled([finding for finding in checked.findings if finding.rule == path.stem])
    if os.environ.get("WRITE_FIXTURES"):
        text = path.read_text(encoding="utf-8")
        path.write_text(text[: case.span[0]] + found + "\n" + text[case.span[1] :], encoding="utf-8")
        return
    assert found == case.expected, case.title


def test_every_rule_has_one_fixture_file_and_every_fixture_file_a_rule() -> None:
    assert [path.stem for path in FIXTURES] == sorted(rules())


@pytest.mark.parametrize("path", FIXTURES, ids=[path.stem for path in FIXTURES])
def test_a_fixture_file_has_a_case_that_fails_and_one_that_passes(path: Path) -> None:
    expected = [case.expected for case in cases(path)]
    assert "Nothing found." in expected
    assert any(text != "Nothing found." for text in expected)


@pytest.mark.parametrize("name", sorted(rules()))
def test_a_rule_is_its_own_manual_page(name: str) -> None:
    """First line a sentence, then its sections and a source of a known kind."""
    page = rules()[name].__doc__ or ""
    assert page.splitlines()[0].endswith(".")
    assert [section for section in SECTIONS if section not in page] == []
    assert _SOURCE.search(page)
    assert rules()[name].LEVEL in ("error", "warning")


@pytest.mark.parametrize("name", sorted(rules()))
def test_the_examples_of_a_manual_page_are_true(name: str, tmp_path: Path) -> None:
    """`Wrong:` is found, `Right:` is not. A fault of reading may have none where YAML itself could not show it."""
    shown = examples(rules()[name].__doc__ or "")
    if not shown:
        assert getattr(rules()[name], "FOUND_BY", None) in ("read", "model", "shape", "recorded"), (
            "a rule of the bench shows its examples"
        )
        return
    assert set(shown) == {"Wrong", "Right"}
    for head, snippet in shown.items():
        write_pattern(tmp_path / head, snippet)
    assert findings(tmp_path / "Wrong", name) != []
    assert findings(tmp_path / "Right", name) == []


def _rule_said(call: ast.Call) -> ast.expr | None:
    """The argument that names the rule: the first of `add`, `warning` and Finding, the third of BadOutline."""
    if isinstance(call.func, ast.Attribute) and call.func.attr in SAYERS:
        return call.args[0] if call.args else None
    if isinstance(call.func, ast.Name) and call.func.id in ("warning", "Finding"):
        return call.args[0] if call.args else None
    if isinstance(call.func, ast.Name) and call.func.id == "BadOutline":
        return call.args[2] if len(call.args) > 2 else None
    return None


def emitted() -> dict[str, set[str]]:
    """The rule names that the reading stages give their findings, and which stages give them."""
    names: dict[str, set[str]] = {}
    for stage in ("read", "model", "shape", "recorded"):
        for path in sorted((PACKAGE / stage).rglob("*.py")):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Call):
                    first = _rule_said(node)
                    if isinstance(first, ast.Constant) and isinstance(first.value, str):
                        names.setdefault(first.value, set()).add(stage)
    return names


def test_what_the_reading_stages_find_has_its_manual_page() -> None:
    """A name that `read` or `model` gives to a finding is a module here, which names one of the stages that give it."""
    names = emitted()
    assert {"tab-in-indent", "not-yaml", "nested-too-deep", "alias-not-read", "unknown-operation"} <= set(names)
    paged = {name: module.FOUND_BY for name, module in rules().items() if hasattr(module, "FOUND_BY")}
    assert sorted(paged) == sorted(names)
    assert {name: stage for name, stage in paged.items() if stage not in names[name]} == {}
