"""A mend that is mechanical works: done as it is said, its finding is gone and no new one has come.

Every fixture under tests/rules and every wrong example of a manual page is mended, one finding at a time.
"""

from __future__ import annotations

import shutil
from collections import Counter
from pathlib import Path

import pytest

from booklet.check.engine import rules
from booklet.finding import Finding
from booklet.pipeline import check_folder
from tests.check.mending import FORMS, form_of, mended
from tests.rules.harness import HERE, cases, examples, write_pattern

# Fixtures sew a few steps of a garment: what they leave undone at the end may change with any mend.
UNFINISHED = {
    "dart-never-sewn",
    "edge-left-raw",
    "more-than-one-garment",
    "notion-never-used",
    "notions-differ",
    "part-never-used",
}
PAGES = [name for name, module in rules().items() if not hasattr(module, "FOUND_BY")]


def wrong_patterns(name: str, tmp_path: Path) -> list[Path]:
    """The folders of a rule's fixtures and of its wrong example."""
    found = []
    for at, case in enumerate(cases(HERE / f"{name}.md")):
        if case.expected != "Nothing found.":
            found.append(tmp_path / f"case-{at + 1}")
            write_pattern(found[-1], case.snippet, case.files)
    shown = examples(rules()[name].__doc__ or "")
    if shown:
        found.append(tmp_path / "wrong")
        write_pattern(found[-1], shown["Wrong"])
    return found


def spots(findings: list[Finding]) -> Counter[tuple[str, str | None]]:
    """What is found where; numbers of steps and lines change with a mend, so that the step's id tells the place."""
    return Counter((finding.rule, finding.step) for finding in findings if finding.allowed is None)


@pytest.mark.parametrize("name", PAGES)
def test_a_mechanical_mend_takes_its_finding_away_and_brings_no_other(name: str, tmp_path: Path) -> None:
    for folder in wrong_patterns(name, tmp_path):
        findings = check_folder(folder).findings
        before = spots(findings)
        for at, finding in enumerate(found for found in findings if found.rule == name and not found.allowed):
            copy = tmp_path / f"{folder.name}-mended-{at}"
            shutil.copytree(folder, copy)
            form = mended(copy, finding)
            if not form:
                continue
            checked = check_folder(copy)
            assert not checked.unread, (form, finding.mend)
            after = spots(checked.findings)
            told = f"{folder.name}: {finding.says} | {finding.mend}"
            assert after[name, finding.step] < before[name, finding.step], f"{told}\nis still found"
            others = [spot for spot in after - before if spot[0] not in UNFINISHED]
            assert others == [], f"{told}\nbrings others"


def test_each_form_of_a_mend_is_met_in_the_fixtures() -> None:
    """Else a changed wording would pass its test by not being understood."""
    mends = [
        line.strip()
        for name in PAGES
        for case in cases(HERE / f"{name}.md")
        for line in case.expected.splitlines()[2::3]
    ]
    met = Counter(form_of(mend) for mend in mends)
    assert [form.name for form in FORMS if not met[form.name]] == []
    assert sum(count for form, count in met.items() if form) > 90
