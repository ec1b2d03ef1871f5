"""Bad input: a located finding and a mend, within seconds; never a traceback, and no file read from outside."""

from __future__ import annotations

import copy
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from booklet.check.engine import rules
from booklet.craft.load import operations
from booklet.pipeline import Checked, check_folder
from booklet.shape.read_dxf import read_dxf
from booklet.tell import one_finding

ROOT = Path(__file__).resolve().parent.parent
DEMOS = sorted(path.parent for path in (ROOT / "steps").glob("*/pattern.yaml"))
STEP = "  - {id: one, title: One, work: [{hem: front.hem, turns: 1 in}]}\n"
# What stands after an operation's name, by what it takes.
MAIN: dict[str, Any] = {
    "edges": ["front.side"], "edge": "front.side", "sides": ["front.side", "front.hem"], "edges or sides": "front.side",
    "parts": "front", "things": "front", "darts": "front.bust dart", "seam or edges": "seam", "measure": "1/4 in",
    "measures": ["1/4 in"], "spacing": "every 1/2 in", "direction": "open", "notion": "elastic",
}  # fmt: skip
# What a slip of the hand or a broken editor leaves where a value was.
BROKEN: dict[str, Any] = {
    "a list": ["one", "two"],
    "an empty list": [],
    "a list of mappings": [{"one": "two"}],
    "a mapping": {"one": "two"},
    "an empty mapping": {},
    "a mapping of lists": {"one": ["two"]},
    "nothing": "",
    "a number": "7",
    "words": "some words. that, mean: nothing",
    "braces": "{piece: {step:",
    "a measure": "5/8 in",
    "a division by nothing": "1/0 in",
    "a very long word": "x" * 2000,
}


def lay(folder: Path, head: str = "", steps: str = STEP, **files: str) -> Path:
    """A small pattern that sews, with more keys of pattern.yaml, other steps, and more files."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "pattern.yaml").write_text(
        "pattern: Small\nstudio: Tests\nedition: '1'\nseam allowance: 5/8 in\nviews: {A: {name: One}}\n"
        "materials: {self: {name: Cloth}}\n"
        "pieces: {front: {number: 1, cut: {self: 1}, edges: {side: {}, hem: {allowance: 1 in}}}}\n" + head,
        encoding="utf-8",
    )
    (folder / "10-one.yaml").write_text(f"section: One\nsteps:\n{steps}", encoding="utf-8")
    for name, text in files.items():
        (folder / name.replace("__", ".")).write_text(text, encoding="utf-8")
    return folder


def checked(folder: Path, seconds: float = 30) -> Checked:
    """Checks the folder, and holds every finding to what all of them promise."""
    start = time.perf_counter()
    result = check_folder(folder)
    assert time.perf_counter() - start < seconds
    for finding in result.findings:
        assert finding.rule in rules(), "a finding has its manual page"
        assert finding.says.strip()
        assert finding.mend.strip()
        assert finding.level in ("error", "warning")
        place = finding.place
        assert (place.line, place.column) <= (place.end_line, place.end_column)
        text = (folder / place.file).read_bytes() if (folder / place.file).is_file() else b""
        assert 1 <= place.line <= text.count(b"\n") + 2
        assert place.column >= 1
    return result


def names(result: Checked) -> list[str]:
    return [finding.rule for finding in result.errors]


def test_the_small_pattern_reads(tmp_path: Path) -> None:
    """Or every test below would pass for the wrong reason."""
    result = checked(lay(tmp_path / "small"))
    assert not result.unread
    assert [finding.rule for finding in result.errors] == ["edge-left-raw"]


def test_a_folder_that_is_not_there_or_empty_says_what_it_lacks(tmp_path: Path) -> None:
    nowhere = checked(tmp_path / "nowhere")
    assert names(nowhere) == ["no-pattern"]
    assert "pattern.yaml" not in "\n".join(one_finding(nowhere.findings[0], None)[-1:])
    assert names(checked(tmp_path)) == ["no-pattern"]
    (tmp_path / "10-steps.yaml").write_text("section: One\nsteps: []\n")
    assert names(checked(tmp_path)) == ["no-pattern"]


def test_a_needed_key_that_is_misspelt_is_one_finding_at_the_slip(tmp_path: Path) -> None:
    """And not a second one for the key that is then missing."""
    folder = lay(tmp_path / "small")
    pattern = folder / "pattern.yaml"
    pattern.write_text(pattern.read_text().replace("seam allowance:", "seam alowance:"))
    (found,) = checked(folder).findings
    assert (found.rule, found.mend) == ("unknown-key", "Did you mean “seam allowance”?")


def test_a_file_in_place_of_a_folder_is_said(tmp_path: Path) -> None:
    (tmp_path / "pattern.yaml").write_text("pattern: One\n")
    assert names(checked(tmp_path / "pattern.yaml")) == ["no-pattern"]


BLANK = ["", "\n\n", "# nothing\n", "---\n", "words\n", "- list\n", "''\n", "null\n", "[]\n", "{}\n", "\ufeff"]


@pytest.mark.parametrize("body", BLANK)
@pytest.mark.parametrize("name", ["pattern.yaml", "10-one.yaml", "film.yaml"])
def test_a_file_with_nothing_in_it_is_said(tmp_path: Path, name: str, body: str) -> None:
    folder = lay(tmp_path / "small")
    (folder / name).write_text(body, encoding="utf-8")
    result = checked(folder)
    assert any(finding.place.file == name for finding in result.errors) or (name == "film.yaml" and body == "{}\n")


HEAD, ONE = ("pattern.yaml", 8), ("10-one.yaml", 3)
# What is added to pattern.yaml, what stands in the step; and the finding, with its file and line.
CASES: dict[str, tuple[str, str, str, tuple[str, int]]] = {
    "not YAML": ("about: one: two", "", "not-yaml", HEAD),
    "a tab": ("about: |\n  one\n\ttwo", "", "tab-in-indent", ("pattern.yaml", 10)),
    "a key written twice": ("studio: Again", "", "repeated-key", HEAD),
    "a misspelt key": ("abuot: one", "", "unknown-key", HEAD),
    "a measure without a unit": ("", "work: [{hem: front.hem, turns: 1}]", "not-a-measure", ONE),
    "a Python tag": ("about: !!python/object/apply:os.system ['touch ran']", "", "tag-not-read", HEAD),
    "a drawing outside the folder": ("", "figure: ../../one.svg", "file-outside-folder", ONE),
    "a drawing on the disk": ("", "figure: /etc/passwd", "file-outside-folder", ONE),
    "a nought in a file's name": ("", 'figure: "art/\\0.svg"', "file-outside-folder", ONE),
    "an address of the web": ("", "figure: 'http://example.org/a.svg'", "address-not-fetched", ONE),
    "an address of a file": ("", "figure: 'FILE:///etc/passwd'", "address-not-fetched", ONE),
}


@pytest.mark.parametrize("case", CASES)
def test_a_slip_is_found_where_it_stands(tmp_path: Path, case: str) -> None:
    head, step, rule, where = CASES[case]
    steps = f"  - {{id: one, title: One, {step}}}\n" if step else STEP
    result = checked(lay(tmp_path / "small", f"{head}\n" if head else "", steps))
    found = [(finding.place.file, finding.place.line) for finding in result.errors if finding.rule == rule]
    assert found == [where]
    assert not list(tmp_path.rglob("ran")), "nothing that a file says is run"


def test_steps_that_wait_for_each_other_are_found(tmp_path: Path) -> None:
    """`after` in a circle: a finding, and an end."""
    steps = "".join(f"  - {{id: s{n}, title: S{n}, after: s{(n + 1) % 50}, uses: front}}\n" for n in range(50))
    result = checked(lay(tmp_path / "small", steps=steps))
    assert result.errors
    assert "after-cycle" in names(result)


def test_parts_that_are_made_of_each_other_are_found(tmp_path: Path) -> None:
    steps = "".join(f"  - {{id: s{n}, title: S{n}, uses: part {(n + 1) % 40}, makes: part {n}}}\n" for n in range(40))
    assert checked(lay(tmp_path / "small", steps=steps)).errors


def test_a_billion_laughs_end_at_the_first(tmp_path: Path) -> None:
    """Aliases that would grow a thousandfold at each of nine levels."""
    laughs = "a: &a [ha, ha, ha, ha, ha, ha, ha, ha, ha]\n"
    for one, two in zip("abcdefgh", "bcdefghi", strict=True):
        laughs += f"{two}: &{two} [{', '.join([f'*{one}'] * 9)}]\n"
    result = checked(lay(tmp_path / "small", laughs))
    assert "alias-not-read" in names(result)


@pytest.mark.parametrize("opened", ["[", "{a: ", "- "])
def test_a_hundred_thousand_brackets_are_too_deep(tmp_path: Path, opened: str) -> None:
    """Flow lists and mappings, and dashes on one line."""
    result = checked(lay(tmp_path / "small", "tools: " + ("\n" if opened == "- " else "") + opened * 100_000 + "\n"))
    assert set(names(result)) <= {"nested-too-deep", "not-yaml"}
    assert names(result)


def test_ten_megabytes_of_steps_are_refused_at_once(tmp_path: Path) -> None:
    folder = lay(tmp_path / "small", steps=STEP * (10_000_000 // len(STEP)))
    assert names(checked(folder, seconds=2)) == ["too-long"]


def test_many_files_that_are_too_long_together_are_refused(tmp_path: Path) -> None:
    folder = lay(tmp_path / "small")
    for n in range(9):
        (folder / f"2{n}-more.yaml").write_text("section: More\nsteps: []\n" + "# words\n" * 125_000)
    assert "too-long" in names(checked(folder))


def test_two_hundred_findings_are_enough_for_the_worst_file(tmp_path: Path) -> None:
    """Thousands of the same slip don't bury the terminal."""
    result = checked(lay(tmp_path / "small", steps="  - {id: one, titel: One}\n" * 5000), seconds=10)
    assert 100 < len(result.findings) < 1000


def test_a_file_that_is_a_link_out_of_the_folder_is_not_read(tmp_path: Path) -> None:
    secret = tmp_path / "secret.yaml"
    secret.write_text("section: the secret\nsteps: []\n")
    folder = lay(tmp_path / "small")
    (folder / "20-link.yaml").symlink_to(secret)
    result = checked(folder)
    assert [(f.rule, f.place.file) for f in result.errors] == [("file-outside-folder", "20-link.yaml")]
    assert not any("secret" in finding.says for finding in result.findings)


def test_a_drawing_that_is_a_link_out_of_the_folder_is_not_read(tmp_path: Path) -> None:
    (tmp_path / "secret.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>')
    folder = lay(tmp_path / "small", steps="  - {id: one, title: One, figure: link.svg, work: [{hem: front.hem}]}\n")
    (folder / "link.svg").symlink_to(tmp_path / "secret.svg")
    result = checked(folder)
    assert "file-outside-folder" in names(result)
    assert result.pattern is not None
    assert result.pattern.steps[0].figure is None


def test_links_in_a_circle_are_said(tmp_path: Path) -> None:
    folder = lay(tmp_path / "small", steps="  - {id: one, title: One, figure: ring.svg, uses: front}\n")
    (folder / "ring.svg").symlink_to("ring.svg")
    (folder / "20-ring.yaml").symlink_to("20-ring.yaml")
    assert checked(folder).errors


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read every file")
def test_a_file_that_may_not_be_opened_is_said(tmp_path: Path) -> None:
    folder = lay(tmp_path / "small")
    (folder / "10-one.yaml").chmod(0)
    assert names(checked(folder)) == ["no-pattern"]


def test_a_pipe_in_place_of_a_file_is_not_waited_for(tmp_path: Path) -> None:
    folder = lay(tmp_path / "small")
    os.mkfifo(folder / "20-pipe.yaml")
    assert names(checked(folder)) == ["no-pattern"]


@pytest.mark.parametrize(
    "data", [b"\xff\xfe\x00", b"section: \xc3\x28\n", b"\x00" * 100, b"section: \x1b[31mred\n", b"a" * 10]
)
def test_bytes_that_are_no_text_are_said(tmp_path: Path, data: bytes) -> None:
    folder = lay(tmp_path / "small")
    (folder / "20-more.yaml").write_bytes(data)
    result = checked(folder)
    assert {finding.place.file for finding in result.errors} == {"20-more.yaml"}


def test_signs_of_every_script_and_none_are_taken_as_words(tmp_path: Path) -> None:
    """Right-to-left marks, emoji, combining signs and a lone quote: they are the writer's words."""
    words = "\u202eabc\u202c 🧵 e\u0301 “ ‘ \u200b ‰ 縫 <script>alert(1)</script> {{ x }} {% y %} $z `w`"
    result = checked(lay(tmp_path / "small", f"about: >-\n  {words}\n"))
    assert names(result) == ["edge-left-raw"]
    assert result.pattern is not None
    assert result.pattern.about is not None
    assert "<script>" in result.pattern.about.value


def nodes(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of every value under this one."""
    if path:
        yield path
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from nodes(inner, (*path, key))
    elif isinstance(value, list):
        for index, inner in enumerate(value):
            yield from nodes(inner, (*path, index))


def replaced(tree: Any, path: tuple[Any, ...], value: Any) -> Any:
    changed = copy.deepcopy(tree)
    at = changed
    for key in path[:-1]:
        at = at[key]
    at[path[-1]] = value
    return changed


def samples() -> list[tuple[str, str, tuple[Any, ...]]]:
    """Every kind of place of the demos once: paths that differ in an index or a writer's own name are one kind."""
    found: dict[tuple[Any, ...], tuple[str, str, tuple[Any, ...]]] = {}
    own = {
        "views",
        "pieces",
        "edges",
        "darts",
        "materials",
        "charts",
        "rows",
        "amounts",
        "cut",
        "terms",
        "metric",
        "setups",
    }
    for demo in DEMOS:
        for file in sorted(demo.glob("*.yaml")):
            tree = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.CBaseLoader)
            for path in nodes(tree):
                kind = tuple(
                    "*" if isinstance(key, int) or (n and path[n - 1] in own) else key for n, key in enumerate(path)
                )
                start = "section" if file.name[0].isdigit() else file.name
                found.setdefault((start, *kind), (demo.name, file.name, path))
    return list(found.values())


SAMPLES = samples()
READ_DXF = cache(read_dxf)


def test_the_samples_reach_every_part_of_the_source() -> None:
    last = {path[-1] for _, _, path in SAMPLES}
    assert {
        "pattern",
        "views",
        "pieces",
        "edges",
        "turns",
        "sew",
        "passes",
        "film",
        "setup",
        "count",
        "amounts",
    } <= last
    assert len(SAMPLES) > 150


@pytest.mark.parametrize("broken", BROKEN)
def test_whatever_stands_in_a_place_there_is_never_a_traceback(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, broken: str
) -> None:
    """Each kind of place of the demos in turn holds something else; the rest is as it was. A seventh of them for each.

    The files of outlines are the demos' own: they are taken apart once.
    """
    monkeypatch.setattr("booklet.shape.read_dxf.read_dxf", READ_DXF)
    folder = tmp_path / "demo"
    for demo, file, path in SAMPLES[list(BROKEN).index(broken) % 7 :: 7]:
        if not folder.is_dir() or (folder / "which").read_text() != demo:
            shutil.rmtree(folder, ignore_errors=True)
            shutil.copytree(ROOT / "steps" / demo, folder)
            (folder / "which").write_text(demo)
        before = (folder / file).read_text(encoding="utf-8")
        tree = replaced(yaml.load(before, Loader=yaml.CBaseLoader), path, BROKEN[broken])
        (folder / file).write_text(
            yaml.dump(tree, Dumper=yaml.CDumper, allow_unicode=True, sort_keys=False, width=10_000), encoding="utf-8"
        )
        try:
            checked(folder)
        except Exception as error:
            raise AssertionError(f"{demo}/{file}: {' > '.join(map(str, path))} holds {broken}") from error
        finally:
            (folder / file).write_text(before, encoding="utf-8")


@pytest.mark.parametrize("demo", DEMOS, ids=[demo.name for demo in DEMOS])
def test_a_file_cut_off_anywhere_is_said(tmp_path: Path, demo: Path) -> None:
    """As a disk that is full, or an editor that stopped, leaves it."""
    folder = tmp_path / "demo"
    shutil.copytree(demo, folder)
    for file in sorted(folder.glob("*.yaml")):
        whole = file.read_bytes()
        for share in range(1, 5):
            file.write_bytes(whole[: len(whole) * share // 5])
            checked(folder)
        file.write_bytes(whole)


@pytest.mark.parametrize("broken", BROKEN)
def test_no_operation_takes_it_amiss(tmp_path: Path, broken: str) -> None:
    """Every operation and every option of every operation holds it, in one pattern."""
    steps: list[dict[str, Any]] = []
    for name, operation in operations().items():
        for option in ("", *operation.options):
            entry = {name: BROKEN[broken]} if not option else {name: MAIN[operation.takes], option: BROKEN[broken]}
            number = len(steps)
            steps.append(
                {"id": f"s{number}", "title": f"S{number}", "work": [entry], "text": "Sew 1/2 in from the edge."}
            )
    folder = lay(tmp_path / "small")
    text = yaml.dump({"section": "All", "steps": steps}, sort_keys=False)
    (folder / "10-one.yaml").write_text(text, encoding="utf-8")
    assert checked(folder, seconds=20).errors


@pytest.mark.parametrize("how", [["check"], ["check", "--json"]])
def test_the_command_ends_with_a_number_and_no_traceback(tmp_path: Path, how: list[str]) -> None:
    """The same through the command line: what is wrong and where, and an exit code that says so."""
    folder = lay(tmp_path / "small", "about: one: two\n")
    command = [sys.executable, "-m", "booklet.cli", *how, str(folder)]
    run = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, timeout=30, check=False)
    assert run.returncode in (1, 2)
    assert run.stderr == ""
    assert "pattern.yaml" in run.stdout
    assert "not-yaml" in run.stdout
