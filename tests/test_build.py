"""`notchbook build`: all or nothing, the old output whole until the new one is, and the same bytes each time."""

from __future__ import annotations

import errno
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pypdf
import pytest

from booklet.pipeline import build_folder
from tests.command import DEMOS, ROOT, command, contents, environment, notchbook

SECTION = "20-pouch.yaml"
BOOKLETS = {"booklet-letter.pdf", "booklet-a4.pdf"}


@pytest.fixture
def pouch(tmp_path: Path) -> Path:
    """The starter, to be spoiled; it builds within two seconds."""
    return Path(shutil.copytree(ROOT / "booklet" / "starter", tmp_path / "pouch"))


def spoil(pattern: Path) -> None:
    """An error that keeps the pattern from being sewn: the pouch is used before it is made."""
    file = pattern / SECTION
    text = file.read_text(encoding="utf-8")
    head, seams, channel = text[: text.index("  - id: seams")], "  - id: seams", "  - id: channel"
    first, rest = text[text.index(seams) : text.index(channel)], text[text.index(channel) :]
    file.write_text(f"{head}{rest}\n{first}", encoding="utf-8")


def renew(pattern: Path) -> None:
    """Another edition: every output's bytes change."""
    file = pattern / "pattern.yaml"
    file.write_text(file.read_text(encoding="utf-8").replace('edition: "1.0"', 'edition: "1.1"'), encoding="utf-8")


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir()}


def test_a_build_makes_every_output_and_says_where(pouch: Path, tmp_path: Path) -> None:
    """One line on standard output, nothing on the other: no warning, no progress where nobody looks."""
    done = notchbook("build", pouch, "--into", tmp_path / "out")
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout == f"pouch: {tmp_path / 'out' / 'pouch'}\n"
    made = contents(tmp_path / "out" / "pouch")
    assert made.keys() >= {
        *BOOKLETS,
        "page/index.html",
        "steps/A.md",
        "steps/A.txt",
        "steps/B.md",
        "steps/B.txt",
        "film/chapters.txt",
        "film/chapters.vtt",
        "film/shots.csv",
        "report.txt",
        "report.json",
    }
    assert all(made.values()), "no file is empty"
    assert names(tmp_path / "out") == {"pouch"}


def test_into_build_unless_another_folder_is_named(pouch: Path) -> None:
    """`build/` where the command runs."""
    done = notchbook("build", "pouch", "--paper", "a4", cwd=pouch.parent)
    assert done.stdout == f"pouch: {Path('build') / 'pouch'}\n"
    assert (pouch.parent / "build" / "pouch" / "booklet-a4.pdf").is_file()


@pytest.mark.parametrize(
    ("options", "made"),
    [
        (["--paper", "letter"], {"booklet-letter.pdf"}),
        (["--paper", "a4"], {"booklet-a4.pdf"}),
        (["--paper", "a4", "--each-view"], {"booklet-a4.pdf", "booklet-A-a4.pdf", "booklet-B-a4.pdf"}),
    ],
)
def test_booklets_by_paper_and_view(pouch: Path, tmp_path: Path, options: list[str], made: set[str]) -> None:
    """And what an earlier build with other options made is gone."""
    out = tmp_path / "out"
    out.mkdir()
    (out / "pouch").mkdir()
    (out / "pouch" / "booklet-Z-letter.pdf").write_bytes(b"old")
    assert notchbook("build", pouch, "--into", out, *options).returncode == 0
    assert {name for name in names(out / "pouch") if name.endswith(".pdf")} == made


def test_each_views_booklet_is_of_that_view(pouch: Path, tmp_path: Path) -> None:
    """The pocket of view B stands in its booklet and in no other's."""
    notchbook("build", pouch, "--into", tmp_path / "out", "--paper", "letter", "--each-view")
    text = {
        letter: "".join(
            page.extract_text()
            for page in pypdf.PdfReader(tmp_path / "out" / "pouch" / f"booklet-{letter}-letter.pdf").pages
        )
        for letter in "AB"
    }
    assert "Hem the pocket" in text["B"]
    assert "Hem the pocket" not in text["A"]


def test_errors_build_nothing_and_say_so(pouch: Path, tmp_path: Path) -> None:
    """Exit 1; the findings, then that nothing was built; what was built before is as it was."""
    out = tmp_path / "out"
    notchbook("build", pouch, "--into", out, "--paper", "a4")
    before = contents(out)
    spoil(pouch)
    done = notchbook("build", pouch, "--into", out, "--paper", "a4")
    assert (done.returncode, done.stdout) == (1, "")
    assert "part-made-later" in done.stderr
    last = done.stderr.splitlines()[-1]
    assert last == "pouch can't be sewn as written, so nothing was built. --draft builds it all the same."
    assert contents(out) == before
    assert notchbook("build", pouch, "--into", tmp_path / "other").returncode == 1
    assert not (tmp_path / "other").exists()


def test_a_draft_builds_and_says_draft_on_every_page(pouch: Path, tmp_path: Path) -> None:
    """Exit 0 in spite of errors; the word stands on each printed page, on the phone's page and in the lists."""
    spoil(pouch)
    done = notchbook("build", pouch, "--into", tmp_path / "out", "--paper", "a4", "--draft")
    assert done.returncode == 0
    assert "part-made-later" in done.stderr
    for page in pypdf.PdfReader(tmp_path / "out" / "pouch" / "booklet-a4.pdf").pages:
        assert "draft" in page.extract_text().casefold()
    for name in ("page/index.html", "steps/A.md", "steps/A.txt"):
        assert "draft" in (tmp_path / "out" / "pouch" / name).read_text(encoding="utf-8").casefold()


def test_draft_marks_only_what_has_errors(pouch: Path, tmp_path: Path) -> None:
    """With nothing wrong, --draft gives the very bytes of a plain build."""
    for folder, options in (("plain", []), ("draft", ["--draft"])):
        assert notchbook("build", pouch, "--into", tmp_path / folder, "--paper", "a4", *options).returncode == 0
    assert contents(tmp_path / "plain") == contents(tmp_path / "draft")


@pytest.mark.parametrize("options", [[], ["--draft"]])
def test_what_cannot_be_read_builds_nothing(pouch: Path, tmp_path: Path, options: list[str]) -> None:
    """Exit 2, also as a draft."""
    (pouch / SECTION).write_text("section: [", encoding="utf-8")
    done = notchbook("build", pouch, "--into", tmp_path / "out", *options)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.splitlines()[-1] == "pouch can't be read, so nothing was built."
    assert not (tmp_path / "out").exists()


def test_several_patterns_on_one_line(pouch: Path, tmp_path: Path) -> None:
    """One that can't be sewn does not keep the others from being built; the worst of all is the exit code."""
    spoiled = Path(shutil.copytree(pouch, tmp_path / "spoiled"))
    spoil(spoiled)
    out = tmp_path / "out"
    done = notchbook("build", spoiled, pouch, tmp_path / "none", "--into", out, "--paper", "a4")
    assert done.returncode == 2
    assert done.stdout == f"pouch: {out / 'pouch'}\n"
    assert names(out) == {"pouch"}
    assert notchbook("build", spoiled, pouch, "--into", out, "--paper", "a4").returncode == 1


def test_never_builds_over_the_pattern_itself(pouch: Path) -> None:
    """Nor over a folder that holds it: both are refused, and the source is as it was."""
    before = contents(pouch)
    inner = Path(shutil.copytree(pouch, pouch.parent / "nest" / "pouch" / "pouch"))
    for source, into in ((pouch, pouch.parent), (inner, pouch.parent / "nest")):
        done = notchbook("build", source, "--into", into)
        assert (done.returncode, done.stdout) == (1, "")
        assert "is where the pattern itself lies; name another folder with --into." in done.stderr
    done = notchbook("build", ".", "--into", "..", cwd=pouch)
    assert done.returncode == 1
    assert contents(pouch) == before


@pytest.mark.parametrize("verb", ["build", "film"])
def test_never_deletes_what_no_build_made(pouch: Path, tmp_path: Path, verb: str) -> None:
    """A folder of that name with somebody's own files in it is left alone, whole."""
    target = tmp_path / "out" / "pouch"
    own = target if verb == "build" else target / "film"
    own.mkdir(parents=True)
    (own / "footage.mov").write_bytes(b"a day's work")
    before = contents(tmp_path / "out")
    done = notchbook(verb, pouch, "--into", tmp_path / "out")
    assert (done.returncode, done.stdout) == (1, "")
    assert "holds what no build makes (footage.mov)" in done.stderr
    assert contents(tmp_path / "out") == before
    (own / "footage.mov").rename(tmp_path / "footage.mov")
    (own / ".DS_Store").write_bytes(b"a system's")
    assert notchbook(verb, pouch, "--into", tmp_path / "out").returncode == 0


def test_film_files_alone_and_then_all(pouch: Path, tmp_path: Path) -> None:
    """`film` makes the film files of a build and their figures, byte for byte, and a build goes over them."""
    notchbook("film", pouch, "--into", tmp_path / "out")
    film = contents(tmp_path / "out" / "pouch" / "film")
    made = set(contents(tmp_path / "out" / "pouch"))
    assert {name for name in made if not name.startswith("figures/")} == {f"film/{name}" for name in film}
    assert notchbook("build", pouch, "--into", tmp_path / "out", "--paper", "a4").returncode == 0
    assert contents(tmp_path / "out" / "pouch" / "film") == film


@contextmanager
def failing(monkeypatch: pytest.MonkeyPatch, where: str, error: BaseException) -> Iterator[None]:
    def fail(*_: Any, **__: Any) -> Any:
        raise error

    with monkeypatch.context() as patched:
        patched.setattr(where, fail)
        yield


FULL = OSError(errno.ENOSPC, "No space left on device")


@pytest.mark.parametrize(
    "where",
    [
        "booklet.publish.place.Path.write_bytes",
        "booklet.publish.pdf.write_pdf",
        "booklet.publish.place.put_in_place",
    ],
)
def test_a_full_disk_leaves_the_last_output_whole(
    pouch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str
) -> None:
    """Wherever it strikes: a sentence, no half-made folder beside the old one, and the next build goes through."""
    out = tmp_path / "out"
    assert build_folder(pouch, out, ["a4"]).target
    before = contents(out)
    renew(pouch)
    with failing(monkeypatch, where, FULL):
        built = build_folder(pouch, out, ["a4"])
    assert built.target is None
    assert (
        built.why == f"{out / 'pouch'} can't be written: No space left on device. What was there before is untouched."
    )
    assert contents(out) == before
    assert build_folder(pouch, out, ["a4"]).target
    assert contents(out) != before


@pytest.mark.parametrize("papers", [["a4"], ["letter", "a4"]], ids=["here", "in children"])
@pytest.mark.parametrize("where", ["booklet.publish.outputs.report.files", "booklet.publish.pdf.write_pdf"])
def test_a_fault_of_our_own_leaves_the_last_output_whole(
    pouch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str, papers: list[str]
) -> None:
    """An exception in an output is not hidden, and harms nothing."""
    out = tmp_path / "out"
    assert build_folder(pouch, out, papers).target
    before = contents(out)
    renew(pouch)
    with failing(monkeypatch, where, ZeroDivisionError("ours")), pytest.raises(ZeroDivisionError):
        build_folder(pouch, out, papers)
    assert contents(out) == before


def test_a_child_that_the_system_ends_is_told_of(pouch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As when memory runs out while a booklet is set."""

    def ended(*_: Any) -> Any:
        os.kill(os.getpid(), signal.SIGKILL)

    monkeypatch.setattr("booklet.publish.pdf.write_pdf", ended)
    built = build_folder(pouch, tmp_path / "out", ["letter", "a4"])
    assert built.target is None
    assert built.why.startswith("The system stopped the setting of a booklet")
    assert contents(tmp_path / "out") == {}


MOMENTS: dict[str, Callable[[Path], bool]] = {
    "as it begins": lambda _: True,
    "while files are written": lambda fresh: fresh.exists(),
    "while booklets are set": lambda fresh: (fresh / "report.txt").exists(),
    "after the first booklet": lambda fresh: any(fresh.glob("booklet-*.pdf")),
    "when the last booklet is there": lambda fresh: sum(1 for _ in fresh.glob("booklet-*.pdf")) >= 2,
}


@pytest.fixture(scope="module")
def editions(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, Path]:
    """A pattern in its second edition, and the outputs of the first and of the second."""
    folder = tmp_path_factory.mktemp("editions")
    pattern = Path(shutil.copytree(ROOT / "booklet" / "starter", folder / "pouch"))
    assert build_folder(pattern, folder / "first").target
    renew(pattern)
    assert build_folder(pattern, folder / "second").target
    return pattern, folder / "first", folder / "second"


@pytest.mark.xdist_group("killed")
@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is Unix's")
@pytest.mark.parametrize("moment", MOMENTS)
def test_a_killed_build_leaves_one_whole_output(editions: tuple[Path, Path, Path], tmp_path: Path, moment: str) -> None:
    """The old one or the new one, never a mixture; its children end with it; the next build cleans up and succeeds."""
    pattern, first, second = editions
    old, new = contents(first), contents(second)
    out = Path(shutil.copytree(first, tmp_path / "out"))
    fresh = out / ".pouch.new"

    process = subprocess.Popen(
        command("build", pattern, "--into", out),
        env=environment(),
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    reached = MOMENTS[moment]
    while process.poll() is None and not reached(fresh):
        time.sleep(0.002)
    process.send_signal(signal.SIGKILL)
    process.wait()
    now = contents(out)
    assert {name: data for name, data in now.items() if not name.startswith(".pouch.")} in (old, new)
    deadline = time.monotonic() + 10
    while _session_lives(process.pid):
        assert time.monotonic() < deadline, "a child of the killed build goes on"
        time.sleep(0.05)

    assert notchbook("build", pattern, "--into", out).returncode == 0
    assert contents(out) == new
    assert names(out) == {"pouch"}


def _session_lives(leader: int) -> bool:
    try:
        os.killpg(leader, 0)
    except ProcessLookupError:
        return False
    return True


def test_a_build_killed_between_two_renames_is_brought_back(
    pouch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where a system can't exchange two folders, the old one is set aside for a moment: the next build finds it."""
    out = tmp_path / "out"
    assert build_folder(pouch, out, ["a4"]).target
    before = contents(out)
    (out / "pouch").rename(out / ".pouch.old")
    with failing(monkeypatch, "booklet.publish.pdf.write_pdf", FULL):
        build_folder(pouch, out, ["a4"])
    assert contents(out) == before


@pytest.mark.parametrize("exchanges", [True, False])
def test_one_move_or_two_come_to_the_same(
    pouch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, exchanges: bool
) -> None:
    """A file system that can't exchange two folders gets the same output, with nothing left beside it."""
    if not exchanges:
        monkeypatch.setattr("booklet.publish.place._exchange", lambda *_: False)
    out = tmp_path / "out"
    for _ in range(2):
        assert build_folder(pouch, out, ["a4"]).target
        renew(pouch)
    assert names(out) == {"pouch"}
    assert b"1.1" in (out / "pouch" / "report.json").read_bytes()


@pytest.mark.xdist_group("demos")
def test_the_same_source_gives_the_same_bytes(demos: Path, tmp_path: Path) -> None:
    """Every output of every demo, PDFs too: from another folder, hash seed, time zone, locale and working folder."""
    for name in DEMOS:
        shutil.copytree(ROOT / "steps" / name, tmp_path / "a longer name" / name)
    away = {"PYTHONHASHSEED": "2", "TZ": "Pacific/Auckland", "LC_ALL": "C", "SOURCE_DATE_EPOCH": "1"}
    # The booklets of each view once, of the smallest, and on one paper: they are set like the others, and take most of
    # the time. Both papers are held to it where a build is killed.
    small = "lantern-tote"
    for names, options in ((set(DEMOS) - {small}, ()), ({small}, ("--each-view",))):
        paper = ("--paper", "a4", *options)
        done = notchbook("build", *sorted(names), *paper, "--into", "out", cwd=tmp_path / "a longer name", **away)
        assert done.returncode == 0, done.stderr
    first, second = contents(demos), contents(tmp_path / "a longer name" / "out")
    assert len(second) > 40
    assert set(second) <= set(first)
    assert [name for name in second if first[name] != second[name]] == []
