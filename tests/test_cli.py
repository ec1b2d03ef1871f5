"""The command line as a user meets it: exit codes, what is printed where, and nothing in it that a terminal obeys."""

from __future__ import annotations

import json
import os
import pty
import re
import shutil
import subprocess
import unicodedata
from pathlib import Path

import pytest

from booklet.check.engine import rules
from booklet.craft.load import constructions, operations
from booklet.explain import all_rules, explain
from booklet.pipeline import check_folder
from tests.command import DEMOS, ROOT, command, contents, environment, notchbook

SECTION = "20-pouch.yaml"


@pytest.fixture
def pouch(tmp_path: Path) -> Path:
    return Path(shutil.copytree(ROOT / "booklet" / "starter", tmp_path / "pouch"))


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def with_error(pattern: Path) -> Path:
    """A seam allowance of 5 1/8 in in view B's pocket: two errors and no more."""
    change(pattern / "10-pocket.yaml", "turns: [1/2 in, 1/2 in]", "turns: [1/2 in, 3/4 in]")
    return pattern


def with_warning(pattern: Path) -> Path:
    """A notion that nothing uses."""
    change(pattern / "pattern.yaml", "  - {item: thread", "  - {item: button, count: 2}\n  - {item: thread")
    return pattern


def unread(pattern: Path) -> Path:
    (pattern / SECTION).write_text("section: [", encoding="utf-8")
    return pattern


@pytest.mark.parametrize("demo", DEMOS)
def test_nothing_is_said_when_nothing_is_wrong(demo: str) -> None:
    """Exit 0 and not a word, on either stream."""
    done = notchbook("check", ROOT / "steps" / demo)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_errors_exit_1_and_are_laid_out_for_a_person(pouch: Path) -> None:
    """What is wrong, in which step of which view, the mend, the place and the rule's name; a count at the end."""
    done = notchbook("check", with_error(pouch))
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.startswith("First Pouch\n\n  Must be mended · step 1, Hem the pocket · view B\n")
    assert "    To mend: " in done.stdout
    assert re.search(r"^    10-pocket\.yaml, line [0-9]+    hem-turns-differ$", done.stdout, re.MULTILINE)
    assert re.search(r"^[0-9]+ to mend\b.*\.\n\Z", done.stdout, re.MULTILINE)


def test_warnings_alone_exit_0_and_are_told(pouch: Path) -> None:
    """They keep nobody from building."""
    done = notchbook("check", with_warning(pouch))
    assert done.returncode == 0
    assert "  Look again" in done.stdout
    assert done.stdout.endswith(" to look at again.\n")


@pytest.mark.parametrize(
    "arguments", [["check"], ["check", "--json"], ["list", "--view", "A"], ["views"], ["film"], ["build"]]
)
@pytest.mark.parametrize("kind", ["not YAML", "no pattern.yaml", "a file", "nothing there"])
def test_what_cannot_be_read_exits_2_with_a_finding(
    pouch: Path, tmp_path: Path, arguments: list[str], kind: str
) -> None:
    """Never a traceback, whatever lies there."""
    match kind:
        case "not YAML":
            unread(pouch)
        case "no pattern.yaml":
            (pouch / "pattern.yaml").unlink()
        case "a file":
            pouch = pouch / "pattern.yaml"
        case _:
            pouch = tmp_path / "none"
    done = notchbook(*arguments, pouch, cwd=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stdout + done.stderr
    if "--json" in arguments:
        assert json.loads(done.stdout)["findings"]
    else:
        assert "To mend: " in done.stdout + done.stderr


KEYS = ["rule", "level", "views", "step", "file", "line", "column", "says", "mend"]


def test_json_is_one_object_of_a_fixed_shape(pouch: Path) -> None:
    """The keys of the contract and no other; places that stand in the source; views in the pattern's order."""
    done = notchbook("check", "--json", with_warning(with_error(pouch)))
    assert (done.returncode, done.stderr) == (1, "")
    whole = json.loads(done.stdout)
    assert list(whole) == ["pattern", "findings"]
    assert whole["pattern"] == "pouch"
    assert {one["level"] for one in whole["findings"]} == {"error", "warning"}
    for one in whole["findings"]:
        assert list(one) == KEYS
        assert one["rule"] in rules()
        assert one["views"] in ([], ["A"], ["B"], ["A", "B"])
        assert one["step"] in (None, "hem-pocket", "attach-pocket", "seams", "channel", "cord")
        lines = (pouch / one["file"]).read_text(encoding="utf-8").splitlines()
        assert lines[one["line"] - 1][one["column"] - 1 :].strip()
        for words in (one["says"], one["mend"]):
            assert words[0].isupper() or words[0] in "“0123456789"
            assert words[-1] in ".?"


def test_json_of_a_clean_pattern_has_no_findings(pouch: Path) -> None:
    done = notchbook("check", "--json", pouch)
    assert (done.returncode, json.loads(done.stdout)) == (0, {"pattern": "pouch", "findings": []})


def test_allowed_findings_are_not_told_again(pouch: Path) -> None:
    """An exception with its reason closes them, in both forms."""
    with_warning(pouch)
    assert [one["rule"] for one in json.loads(notchbook("check", "--json", pouch).stdout)["findings"]] == [
        "notion-never-used"
    ]
    change(pouch / "pattern.yaml", "before you begin:", "allow: {notion-never-used: spare ones}\nbefore you begin:")
    assert json.loads(notchbook("check", "--json", pouch).stdout)["findings"] == []
    assert notchbook("check", pouch).stdout == ""


@pytest.mark.parametrize("letter", ["B", "b"])
def test_one_view_alone_in_either_case(pouch: Path, letter: str) -> None:
    """View A does not have the pocket, so its check finds nothing wrong with it."""
    with_error(pouch)
    assert notchbook("check", pouch, "--view", letter).returncode == 1
    assert notchbook("check", pouch, "--view", "a").returncode == 0
    listed = notchbook("list", pouch, "--view", letter)
    assert "View B: Pouch with a pocket" in listed.stdout


@pytest.mark.parametrize("verb", ["check", "list"])
def test_a_view_that_is_not_there_exits_2_and_names_those_that_are(pouch: Path, verb: str) -> None:
    done = notchbook(verb, pouch, "--view", "Q")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "pouch has no view Q. Its views are A, B.\n"


def test_list_prints_what_a_build_writes(pouch: Path, tmp_path: Path) -> None:
    """As text and as Markdown; a list on its own tells in words the figures that the build puts beside it."""
    notchbook("build", pouch, "--into", tmp_path / "out", "--paper", "a4")
    for option, name in (((), "B.txt"), (("--markdown",), "B.md")):
        done = notchbook("list", pouch, "--view", "B", *option)
        assert (done.returncode, done.stderr) == (0, "")
        built = (tmp_path / "out" / "pouch" / "steps" / name).read_bytes().decode()
        assert done.stdout == re.sub(r"^!\[(.*)\]\(\S+\)$", r"*Figure.* \1", built, flags=re.MULTILINE)


def test_list_of_what_cannot_be_sewn_is_printed_and_exits_1(pouch: Path) -> None:
    """A writer may want to read it; the last line sends her to check."""
    done = notchbook("list", with_error(pouch), "--view", "B")
    assert done.returncode == 1
    assert "1. Hem the pocket" in done.stdout
    assert done.stderr.startswith("This view can't be sewn as written: ")


def test_views_side_by_side(pouch: Path) -> None:
    """A letter under each view that sews a step, where branches leave and meet, and what each adds and drops."""
    done = notchbook("views", pouch)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("First Pouch: ")
    assert "  1–2  · B  " in done.stdout
    assert "From the first step, until step 3: B sews 1 and 2; A goes straight on to 3." in " ".join(
        done.stdout.split()
    )
    assert "    Drops  1 and 2\n" in done.stdout


def test_views_as_an_object(pouch: Path) -> None:
    """Of a fixed shape, with steps by their numbers."""
    done = notchbook("views", "--json", pouch)
    assert (done.returncode, done.stderr) == (0, "")
    whole = json.loads(done.stdout)
    assert list(whole) == ["pattern", "title", "shared", "views", "branches", "joints", "steps"]
    assert whole["pattern"] == "pouch"
    assert [view["letter"] for view in whole["views"]] == ["A", "B"]
    assert [view["drops"] for view in whole["views"]] == [[1, 2], []]
    assert list(whole["steps"][0]) == ["number", "id", "title", "section", "views", "optional"]


@pytest.mark.parametrize("option", [(), ("--json",)])
def test_views_of_what_cannot_be_sewn_are_told_and_exit_1(pouch: Path, option: tuple[str, ...]) -> None:
    done = notchbook("views", with_error(pouch), *option)
    assert done.returncode == 1
    assert "Hem the pocket" in done.stdout
    assert done.stderr.startswith("It can't be sewn as written: ")


def test_film_makes_the_film_files_and_refuses_like_build(pouch: Path, tmp_path: Path) -> None:
    done = notchbook("film", pouch, "--into", tmp_path / "out")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"pouch: {tmp_path / 'out' / 'pouch' / 'film'}\n", "")
    assert contents(tmp_path / "out" / "pouch").keys() >= {
        "film/chapters.txt",
        "film/chapters.vtt",
        "film/shots.csv",
    }
    named = {path for path in contents(tmp_path / "out" / "pouch") if path.startswith("figures/")}
    assert set(re.findall(r"figures/[\w-]+\.svg", (tmp_path / "out/pouch/film/shots.csv").read_text("utf-8"))) == named
    before = contents(tmp_path / "out")
    with_error(pouch)
    refused = notchbook("film", pouch, "--into", tmp_path / "out")
    assert refused.returncode == 1
    assert "nothing was built" in refused.stderr
    assert contents(tmp_path / "out") == before
    assert notchbook("film", pouch, "--into", tmp_path / "out", "--draft").returncode == 0


def test_explain_has_a_page_for_every_word() -> None:
    """Every rule, operation and construction, by its own name; alone, it lists every rule with its first line."""
    pages = {word: explain(word) for word in (*rules(), *operations(), *constructions())}
    assert [word for word, (_, found) in pages.items() if not found] == []
    assert all("Source: " in page for page, _ in pages.values())
    listed = all_rules()
    for name, module in rules().items():
        assert re.search(rf"^  {name} +\S", listed, re.MULTILINE), name
        assert module.LEVEL in ("error", "warning")


@pytest.mark.parametrize(
    ("words", "first"),
    [
        (["part-made-later"], "part-made-later (must be mended)"),
        (["Part", "made", "later"], "part-made-later (must be mended)"),
        (["flat", "felled"], "flat felled: a seam construction"),
        (["understitch"], "understitch: an operation of `work`"),
    ],
)
def test_explain_takes_a_name_as_people_write_it(words: list[str], first: str) -> None:
    done = notchbook("explain", *words)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[0] == first


@pytest.mark.parametrize(
    ("words", "near"),
    [("part-made-latter", "part made later"), ("understich", "understitch"), ("flatfelled", "flat felled")],
)
def test_explain_offers_the_nearest(words: str, near: str) -> None:
    done = notchbook("explain", words)
    assert done.returncode == 2
    assert f"Did you mean “{near}”?" in done.stdout
    assert "“notchbook explain” alone lists the rules." in notchbook("explain", "xyzzyx").stdout


def test_start_lays_down_a_pattern_with_nothing_to_find(tmp_path: Path) -> None:
    """It checks clean with no finding of any kind, and builds."""
    folder = tmp_path / "new" / "first"
    done = notchbook("start", folder)
    assert (done.returncode, done.stderr) == (0, "")
    assert f"notchbook check {folder}" in done.stdout
    assert check_folder(folder).findings == []
    assert notchbook("build", folder, "--into", tmp_path / "out", "--paper", "a4").stderr == ""


def test_start_never_writes_over_anything(tmp_path: Path) -> None:
    """A folder with something in it, and a file, are refused; an empty folder is taken."""
    (tmp_path / "full").mkdir()
    (tmp_path / "full" / "mine.txt").write_text("mine", encoding="utf-8")
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    (tmp_path / "empty").mkdir()
    before = contents(tmp_path)
    for name in ("full", "file"):
        done = notchbook("start", tmp_path / name)
        assert done.returncode == 2
        assert "is there already and not empty; name a new folder." in done.stderr
    assert contents(tmp_path) == before
    assert notchbook("start", tmp_path / "empty").returncode == 0


def test_a_word_too_few_or_too_many_exits_2() -> None:
    for arguments in ([], ["sew"], ["check"], ["list", "here"], ["build", "--paper", "a5", "here"]):
        done = notchbook(*arguments)
        assert (done.returncode, done.stdout) == (2, "")
        assert "Traceback" not in done.stderr


# An escape sequence, the same in one sign of C1, a bell, a carriage return and an override of the reading direction.
BAD = "\x1b[31mred\x1b]0;title\x07 \x9b31m\rhidden \u202egnirts"
YAML_BAD = r"\e[31mred\e]0;title\a \x9b31m\rhidden \u202egnirts"


def harmless(text: str) -> bool:
    """No control sign but the end of a line, and no sign that turns the direction of reading."""
    return not any(unicodedata.category(sign) in ("Cc", "Cf") and sign != "\n" for sign in text)


def spoiled_everywhere(pattern: Path, faults: bool) -> Path:
    """Signs that a terminal obeys, wherever the source lets a writer write; with faults that quote them, or none."""
    file = pattern / "pattern.yaml"
    change(file, "pattern: First Pouch", f'pattern: "{YAML_BAD}"')
    change(file, "studio: Your Studio", f'studio: "{YAML_BAD}"')
    change(file, "Main fabric", f'"{YAML_BAD}"')
    change(file, "name: Plain pouch", f'name: "{YAML_BAD}"')
    change(pattern / SECTION, "section: Pouch", f'section: "{YAML_BAD}"')
    change(pattern / SECTION, "title: Thread the cord", f'title: "{YAML_BAD}"')
    change(pattern / SECTION, "show: The pin travelling round the channel", f'show: "{YAML_BAD}"')
    if faults:
        change(pattern / SECTION, "makes: pouch", f'makes: "{YAML_BAD}"')
        change(pattern / SECTION, "      - insert: cord", f'      - insert: "{YAML_BAD}"\n      - "{YAML_BAD}": panel')
        change(file, "units: inch", f'units: "{YAML_BAD}"\n"{YAML_BAD}": 1\nallow: {{"{YAML_BAD}": "{YAML_BAD}"}}')
    return pattern


@pytest.mark.parametrize("faults", [False, True])
@pytest.mark.parametrize(
    "arguments",
    [
        ["check"],
        ["check", "--json"],
        ["list", "--view", "A"],
        ["list", "--markdown", "--view", "A"],
        ["views"],
        ["views", "--json"],
        ["film", "--draft"],
    ],
    ids=" ".join,
)
def test_nothing_of_the_source_moves_a_terminal(
    pouch: Path, tmp_path: Path, arguments: list[str], faults: bool
) -> None:
    """Escape sequences of a hostile pattern come out as signs that do nothing."""
    done = notchbook(*arguments, spoiled_everywhere(pouch, faults), cwd=tmp_path)
    assert "Traceback" not in done.stderr
    assert harmless(done.stdout + done.stderr)
    if faults and arguments[0] == "check":
        assert "gnirts" in done.stdout, "the finding quotes it all the same"


def test_nothing_of_the_command_line_moves_a_terminal(tmp_path: Path) -> None:
    """A folder's name and a word to explain are a stranger's too."""
    folder = tmp_path / "\x1b[31mred"
    folder.mkdir()
    for arguments in (
        ["check", folder],
        ["build", folder],
        ["explain", BAD],
        ["check", ROOT / "booklet/starter", "--view", BAD],
    ):
        done = notchbook(*arguments)
        assert harmless(done.stdout + done.stderr), arguments


def test_colour_only_where_a_person_looks(pouch: Path) -> None:
    """Bold on a terminal, but not with NO_COLOR set; never in a file or a pipe."""
    with_error(pouch)
    assert "\x1b" not in notchbook("check", pouch).stdout
    assert "\x1b[1m" in on_terminal("check", pouch)
    assert "\x1b" not in on_terminal("check", pouch, NO_COLOR="1")


def on_terminal(*arguments: str | Path, **variables: str) -> str:
    ours, theirs = pty.openpty()
    process = subprocess.Popen(command(*arguments), env=environment(**variables), stdout=theirs, stderr=theirs)
    os.close(theirs)
    said = b""
    try:
        while chunk := os.read(ours, 65536):
            said += chunk
    except OSError:  # Linux's way of saying that the other end is closed
        pass
    os.close(ours)
    process.wait()
    return said.decode()


@pytest.mark.parametrize("arguments", [["explain"], ["schema"], ["list", "--view", "A", ROOT / "steps" / DEMOS[0]]])
def test_a_reader_that_leaves_early_is_no_fault(arguments: list[str | Path]) -> None:
    """`notchbook … | head` ends without a word."""
    process = subprocess.Popen(
        command(*arguments), env=environment(), stdout=subprocess.PIPE, stderr=subprocess.PIPE, encoding="utf-8"
    )
    assert process.stdout
    assert process.stderr
    process.stdout.close()
    assert process.stderr.read() == ""
    process.stderr.close()
    assert process.wait() == 0


def test_a_terminal_that_knows_few_signs_still_gets_the_words(pouch: Path) -> None:
    """In an old encoding, what it lacks becomes a question mark."""
    done = notchbook("check", with_error(pouch), PYTHONIOENCODING="ascii")
    assert done.returncode == 1
    assert "Hem the pocket" in done.stdout
