"""What a check keeps for the next one is used while it is true, and never needed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent

# Runs the command in a process that stays alive to tell how many of its modules were kept ones.
CHECK = """
import sys
import booklet.cli, booklet.ready
booklet.cli._leave = lambda code: None
sys.argv[1:] = ["check", sys.argv[1]]
code = booklet.cli.main()
loaders = [getattr(module, "__loader__", None) for module in sys.modules.values()]
print(code, sum(isinstance(loader, booklet.ready.Ready) for loader in loaders))
"""


@pytest.fixture(scope="module")
def copied(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package and a small pattern, in a folder of their own."""
    place = tmp_path_factory.mktemp("ready")
    shutil.copytree(ROOT / "booklet", place / "booklet", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(ROOT / "booklet" / "starter", place / "pattern", ignore=shutil.ignore_patterns("__pycache__"))
    return place


def check(place: Path, compiled: Path) -> list[str]:
    """What a check says, and last its exit code and how many modules it had ready."""
    surroundings = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(
        [sys.executable, "-c", CHECK, "pattern"],
        cwd=place,
        env={**surroundings, "PYTHONPYCACHEPREFIX": str(compiled), "PYTHONPATH": str(place)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stderr == ""
    return done.stdout.splitlines()


def test_the_second_check_has_its_modules_ready(copied: Path, tmp_path: Path) -> None:
    assert check(copied, tmp_path) == ["0 0"]
    code, kept = check(copied, tmp_path)[-1].split()
    assert code == "0"
    assert int(kept) > 150


def test_a_module_that_has_changed_is_read_anew(copied: Path, tmp_path: Path) -> None:
    """Of the same length, a moment later: as when a word is mended."""
    check(copied, tmp_path)
    before = int(check(copied, tmp_path)[-1].split()[1])
    rule = copied / "booklet" / "check" / "rules" / "part_never_used.py"
    text = rule.read_text(encoding="utf-8")
    changed = text.replace("What it finds", "What it Finds", 1)
    assert changed != text
    assert len(changed) == len(text)
    rule.write_text(changed, encoding="utf-8")
    code, kept = check(copied, tmp_path)[-1].split()
    assert (code, int(kept)) == ("0", before - 1)
    assert int(check(copied, tmp_path)[-1].split()[1]) == before


def test_what_was_kept_and_is_broken_is_not_used(copied: Path, tmp_path: Path) -> None:
    check(copied, tmp_path)
    (kept,) = tmp_path.rglob("kept-for-check*")
    for broken in (b"", kept.read_bytes()[:40], b"words that are no code"):
        kept.write_bytes(broken)
        assert check(copied, tmp_path)[-1] == "0 0"
        assert kept.read_bytes() != broken


def test_where_nothing_can_be_written_a_check_says_what_it_says_elsewhere(copied: Path, tmp_path: Path) -> None:
    taken = tmp_path / "a file"
    taken.write_text("where a folder would be", encoding="utf-8")
    assert check(copied, taken)[-1] == "0 0"
