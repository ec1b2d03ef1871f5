"""`notchbook order`: another order, the nearest one, and its exit codes."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from tests.command import ROOT, notchbook

IDS = ["hem-pocket", "attach-pocket", "seams", "channel-ends", "channel", "cord"]


@pytest.fixture
def pouch(tmp_path: Path) -> Path:
    return Path(shutil.copytree(ROOT / "booklet" / "starter", tmp_path / "pouch"))


def listed(folder: Path, *lines: str) -> Path:
    file = folder / "filmed.txt"
    file.write_text("\n".join(lines), encoding="utf-8")
    return file


def test_the_written_order_comes_out_and_nothing_moved(pouch: Path, tmp_path: Path) -> None:
    """Remarks, blank lines and case are no matter."""
    file = listed(tmp_path, "# as filmed", "", *(f"  {name.upper()}  # done" for name in IDS))
    done = notchbook("order", pouch, "--view", "b", "--as", file)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[2:] == ["The garment comes out.", "", "No step moved: it is the written order."]


def test_a_broken_order_names_what_moved_and_the_rule_that_breaks(pouch: Path, tmp_path: Path) -> None:
    file = listed(tmp_path, *IDS[:-2], "cord", "channel")
    done = notchbook("order", pouch, "--view", "B", "--as", file)
    assert done.returncode == 1
    assert "The garment does not come out: 1 to mend." in done.stdout
    assert "1 step moved:" in done.stdout
    assert "insert-before-casing" in done.stdout
    data = json.loads(notchbook("order", pouch, "--view", "B", "--as", file, "--json").stdout)
    assert list(data) == ["pattern", "view", "comes_out", "slips", "left_out", "moved", "findings", "also_as_written"]
    assert (data["comes_out"], len(data["moved"])) == (False, 1)
    assert [finding["rule"] for finding in data["findings"]] == ["insert-before-casing"]


def test_a_list_with_slips_is_not_sewn_and_each_is_told_in_its_place(pouch: Path, tmp_path: Path) -> None:
    """An id that is unknown, doubled, missing, or of another view."""
    file = listed(tmp_path, "seam", "channel", "channel", "hem-pocket")
    done = notchbook("order", pouch, "--view", "A", "--as", file)
    assert done.returncode == 2
    assert "No step has the id “seam”." in done.stdout
    assert "Did you mean “seams”?" in done.stdout
    assert "“channel” stands here for the second time; line 2 has it already." in done.stdout
    assert "which view A does not sew" in done.stdout
    assert "The list ends without step " in done.stdout
    assert "filmed.txt, line 3" in done.stdout


@pytest.mark.parametrize("kind", ["nothing there", "a folder", "no text"])
def test_a_list_that_cannot_be_read_exits_2(pouch: Path, tmp_path: Path, kind: str) -> None:
    file = tmp_path / "list"
    if kind == "a folder":
        file.mkdir()
    elif kind == "no text":
        file.write_bytes(b"\xff\xfe\x00")
    done = notchbook("order", pouch, "--view", "A", "--as", file)
    assert done.returncode == 2
    assert "To mend: " in done.stdout
    assert "Traceback" not in done.stderr


def test_what_is_suggested_is_a_list_that_comes_out(pouch: Path, tmp_path: Path) -> None:
    """The cord threaded before its channel is sewn: one move, and no order with fewer sews."""
    section = pouch / "20-pouch.yaml"
    head, _, rest = section.read_text(encoding="utf-8").partition("  - id: channel\n")
    channel, _, cord = rest.partition("  - id: cord\n")
    section.write_text(f"{head}  - id: cord\n{cord.rstrip()}\n  - id: channel\n{channel}", encoding="utf-8")
    assert notchbook("check", pouch).returncode == 1
    done = notchbook("order", pouch, "--view", "B", "--suggest")
    assert (done.returncode, done.stderr) == (0, "")
    assert "# The nearest order that sews: 1 step moved, and no order with fewer sews." in done.stdout
    file = listed(tmp_path, *done.stdout.splitlines())
    assert notchbook("order", pouch, "--view", "B", "--as", file).returncode == 0
    data = json.loads(notchbook("order", pouch, "--view", "B", "--suggest", "--json").stdout)
    assert (data["found"], data["proven"], data["order"]) == (True, True, IDS)


def test_standings_as_one_object(pouch: Path) -> None:
    done = notchbook("order", pouch, "--view", "B", "--json")
    assert done.returncode == 0
    steps = json.loads(done.stdout)["steps"]
    assert [step["id"] for step in steps] == IDS
    cord = steps[-1]
    assert [wait["step"] for wait in cord["waits_for"]] == ["channel"]
    assert cord["earlier"]["stop"]["step"] == "channel"
    assert cord["later"] == {"places": 0, "at_least": False, "stop": None}


def test_a_view_that_is_not_there_exits_2(pouch: Path) -> None:
    done = notchbook("order", pouch, "--view", "Q")
    assert (done.returncode, done.stdout) == (2, "")
