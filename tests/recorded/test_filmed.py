"""Chapters from captions and from markers, what was corrected by hand, and what `notchbook film` says of it."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from booklet.cli import main
from booklet.pipeline import check_folder, with_film
from booklet.recorded.against import film_findings
from booklet.recorded.filmed import Filmed, what_was_filmed
from tests.recorded.scores import DEMOS, pattern_of
from tests.rules.harness import write_pattern


@pytest.fixture
def tunic(tmp_path: Path) -> Path:
    folder = tmp_path / "tunic"
    shutil.copytree(DEMOS[0], folder)
    return folder


def film(folder: Path, text: str) -> Filmed:
    (folder / "film.yaml").write_text(text, encoding="utf-8")
    filmed = what_was_filmed(pattern_of(folder))
    assert filmed is not None
    return filmed


def starts(filmed: Filmed) -> dict[str | None, tuple[float, str, str]]:
    chapters = filmed.chapters
    return {filmed.takes[one.take].id: (one.start, one.confidence, one.source) for one in chapters}


def test_a_correction_wins_and_is_sure(tunic: Path) -> None:
    by_captions = starts(film(tunic, "view: B\nrecorded: captions.vtt\n"))
    assert by_captions["cut slit"][1] == "look"
    corrected = starts(film(tunic, "view: B\nrecorded: captions.vtt\ntimes: {cut slit: 15:33}\n"))
    assert corrected["cut slit"] == (933.0, "sure", "corrected")
    assert {**corrected, "cut slit": None} == {**by_captions, "cut slit": None}


def test_a_correction_stays_when_the_captions_change(tunic: Path) -> None:
    text = (tunic / "captions.vtt").read_text(encoding="utf-8")
    (tunic / "captions.vtt").write_text(text[: len(text) // 2], encoding="utf-8")
    filmed = film(tunic, "view: B\nrecorded: captions.vtt\ntimes: {hem: 38:46, darts: 8:29}\n")
    assert starts(filmed)["hem"] == (2326.0, "sure", "corrected")
    (late,) = (one for one in filmed.findings if one.rule == "time-does-not-fit")
    assert "38:46 lies behind the end of captions.vtt" in late.says


def test_a_step_said_not_to_be_filmed_has_no_chapter(tunic: Path) -> None:
    filmed = film(tunic, "view: B\nrecorded: captions.vtt\ntimes: {hem: Not filmed}\n")
    assert "hem" not in starts(filmed)


def test_times_alone_are_enough(tunic: Path) -> None:
    filmed = film(tunic, "view: B\ntimes: {darts: 0:00, loops: 4:00}\n")
    assert starts(filmed) == {"darts": (0.0, "sure", "corrected"), "loops": (240.0, "sure", "corrected")}
    assert filmed.missing == ()


def test_markers_are_taken_by_number_title_and_id(tunic: Path) -> None:
    (tunic / "marks.csv").write_text(
        "0:00,Welcome\n2:00,STEP 7\n4:00,Make the button loops\n6:00,slit\n", encoding="utf-8"
    )
    filmed = film(tunic, "view: B\nrecorded: marks.csv\n")
    sure = ("sure", "recorded")
    assert starts(filmed) == {"darts": (120.0, *sure), "loops": (240.0, *sure), "slit": (360.0, *sure)}
    assert [(one.start, one.name) for one in filmed.strangers] == [(0.0, "Welcome")]


def test_chapters_follow_one_another(tunic: Path) -> None:
    filmed = film(tunic, "view: B\nrecorded: captions.vtt\n")
    for one, two in zip(filmed.chapters, filmed.chapters[1:], strict=False):
        assert one.start <= one.end == two.start


def test_an_exception_is_said_where_it_stands(tunic: Path) -> None:
    """And `check`, which does not look at the film, does not take it for stale."""
    file = tunic / "50-sleeves.yaml"
    text = file.read_text(encoding="utf-8")
    allow = '    title: Finish the armholes\n    allow: {step-not-filmed: "shown in the film of the sides"}\n'
    file.write_text(text.replace("    title: Finish the armholes\n", allow), encoding="utf-8")
    checked = check_folder(tunic)
    assert checked.open_findings == []
    (one,) = (one for one in with_film(checked).findings if one.rule == "step-not-filmed")
    assert one.allowed == "shown in the film of the sides"


def test_check_does_not_look_at_the_film(tunic: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tunic / "captions.vtt").unlink()
    assert main(["check", str(tunic)]) == 0
    assert capsys.readouterr().out == ""


VEST = """\
steps:
  - {id: darts, title: Sew the bust darts, work: [{dart: front.bust dart}]}
  - {id: sides, title: Sew the sides, work: [{sew: [front.side, back.side]}]}
"""


@pytest.fixture
def vest(tmp_path: Path) -> Path:
    """Filmed in an order in which it does not come out."""
    files = {"film.yaml": b"view: A\nrecorded: marks.csv\n", "marks.csv": b"0:00,Step 2\n9:00,Step 1\n"}
    write_pattern(tmp_path / "vest", VEST, files)
    return tmp_path / "vest"


def test_film_prints_its_times_and_findings_as_json(
    vest: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:  # fmt: skip
    assert main(["film", str(vest), "--into", str(tmp_path / "out"), "--json", "--draft"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert (said["view"], said["recorded"]) == ("A", "marks.csv")
    assert [(one["step"], one["start"], one["confidence"]) for one in said["times"]] == [
        ("sides", 0.0, "sure"),
        ("darts", 540.0, "sure"),
    ]
    assert {one["rule"] for one in said["findings"]} >= {"filmed-in-another-order", "filmed-order-does-not-sew"}
    times = {one["rule"]: one.get("time") for one in said["findings"]}
    assert times["filmed-in-another-order"] in (0.0, 540.0)


def test_an_order_that_does_not_sew_is_no_error_of_the_checked_source(vest: Path) -> None:
    checked = check_folder(vest)
    found = with_film(checked)
    assert [one.rule for one in found.errors if one not in checked.errors] == ["filmed-order-does-not-sew"]


def test_a_recording_of_another_film_is_one_finding(tunic: Path) -> None:
    """Not one a step, and not one a time that lies behind its end. It stands where the recording is named."""
    bread = ("Today we bake a loaf of rye.", "Let it rest in the basket.", "The oven is hot.", "Flour, water and salt.")
    cues = (f"00:{at // 12:02d}:{at % 12 * 5:02d}.000 --> 00:{at // 12:02d}:{at % 12 * 5 + 4:02d}.000\n{bread[at % 4]}"
            for at in range(96))  # fmt: skip
    (tunic / "captions.vtt").write_text("WEBVTT\n\n" + "\n\n".join(cues) + "\n", encoding="utf-8")
    times = "times: {hem: 37:22, darts: 9:23, loops: 11:11, collar: 22:43, slit: 14:08}\n"
    (tunic / "film.yaml").write_text(f"view: B\nrecorded: captions.vtt\n{times}", encoding="utf-8")
    found = [one for one in film_findings(pattern_of(tunic)) if one.place.file != "captions.vtt"]
    assert [(one.rule, one.place.file, one.place.line) for one in found] == [
        ("time-does-not-fit", "film.yaml", 3), ("step-not-filmed", "film.yaml", 2),
    ]  # fmt: skip
    assert found[0].says.startswith("5 of these times lie behind the end of captions.vtt, at 7:59; ")
    assert found[1].says == "captions.vtt says nothing of 22 of the 28 steps of view B: 1, 3, 5, 6 and 18 more."


def test_a_film_is_no_recording_and_is_not_read(tunic: Path) -> None:
    """However large it is; the finding stands where it is named."""
    with (tunic / "film.mp4").open("wb") as file:
        file.truncate(9_000_000)
    (found,) = film(tunic, "view: B\nrecorded: film.mp4\n").findings
    assert (found.place.file, found.place.line) == ("film.yaml", 2)
    assert found.says == "“film.mp4” is of no kind that is read."


@pytest.mark.parametrize(
    ("text", "says", "mend"),
    [
        ("link: 'https://video.example/w?t={second}'", "“{second}” stands for nothing", "Write “{seconds}”"),
        ("times: {hem: [1, 2]}", "“hem” should hold a time, such as 12:40, or “not filmed”", "Write a time, such as"),
        ("samples: -1", "should hold a whole number from 0 to 9, not “-1”", "Write a whole number from 0 to 9"),
        ("pace: 0", "should hold a number from 1 to 400, not “0”", "Write a number from 1 to 400"),
        ("takes: [{title: Hello, when: first, minutes: -2}]", "a number from 0 to 600, not “-2”", "from 0 to 600"),
        ("- a list", "it should be keys with a colon", "Begin it with “view:”"),
    ],
)
def test_a_slip_in_the_film_plan_says_what_may_stand_there(tunic: Path, text: str, says: str, mend: str) -> None:
    (tunic / "film.yaml").write_text(f"{text}\n", encoding="utf-8")
    (found,) = (one for one in check_folder(tunic).findings if one.place.file == "film.yaml")
    assert says in found.says
    assert mend in found.mend


FINDING = {
    "type": "object",
    "properties": {
        **{name: {"type": "string"} for name in ("rule", "file", "says", "mend", "reason")},
        **{name: {"type": "integer", "minimum": 1} for name in ("line", "column")},
        "level": {"enum": ["error", "warning"]},
        "views": {"type": "array", "items": {"type": "string"}},
        "step": {"type": ["string", "null"]},
        "time": {"type": "number", "minimum": 0},
    },
    "required": ["rule", "level", "views", "step", "file", "line", "column", "says", "mend"],
    "additionalProperties": False,
}


def test_the_report_of_a_build_has_what_is_found_in_the_film_with_its_time(vest: Path, tmp_path: Path) -> None:
    """In the form that README.md describes, which a JSON Schema holds here: `time` is of a moment in the film alone."""
    out = tmp_path / "out"
    main(["build", str(vest), "--into", str(out), "--paper", "a4", "--draft"])
    report = json.loads((out / "vest" / "report.json").read_bytes())
    validator = Draft202012Validator({"type": "array", "items": FINDING})
    assert [error.message for error in validator.iter_errors([*report["findings"], *report["allowed"]])] == []
    times = {one["rule"]: one.get("time") for one in report["findings"]}
    assert times["filmed-in-another-order"] in (0.0, 540.0)
    checked = {one.rule for one in check_folder(vest).findings}
    assert checked
    assert all(times[rule] is None for rule in checked)
