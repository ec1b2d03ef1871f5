"""A step with no text prints the words of its work, as a person would say them."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.plan.prose import plain
from tests.plan import small


def said(tmp_path: Path, *work: str, view: str | None = None, makes: str = "") -> str:
    entries = "".join(f"      - {entry}\n" for entry in work)
    made = f"    makes: {makes}\n" if makes else ""
    steps = f"  - id: sew\n    title: Sew\n    work:\n{entries}{made}"
    return plain(small.step(small.plan(tmp_path, steps, view), "sew").text)


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        (
            "{staystitch: [front.neckline, back.neckline], at: 1/2 in}",
            "Staystitch the front and back necklines, 1/2 in (1.3 cm) from the edge.",
        ),
        # Without its measure the bracket drops out.
        ("staystitch: front.neckline", "Staystitch the neckline of the front."),
        ("fuse: neck facing", "Fuse the interfacing to the wrong side of the neck facing."),
        ("dart: front.bust dart", "Sew the bust darts of the front, from the wide end to the point."),
        (
            "sew: [front.shoulder, back.shoulder]",
            "Sew the front and back shoulders, right sides together, 5/8 in (1.5 cm) from the edge.",
        ),
        (
            "sew: [back.centre back, back.centre back]",
            "Sew the two centre back edges of the back, right sides together, 5/8 in (1.5 cm) from the edge.",
        ),
        (
            "sew: [[front.neckline, back.neckline], neck facing.neckline]",
            "Sew the front and back necklines to the neckline of the neck facing, right sides together, "
            "5/8 in (1.5 cm) from the edge.",
        ),
        (
            "{sew: [front.side, back.side], seam: french, passes: [3/8 in, 1/4 in], trim: 1/8 in}",
            "Sew the front and back sides, wrong sides together, 3/8 in (1 cm) from the edge. Trim to 1/8 in (3 mm). "
            "Fold right sides together and sew again, 1/4 in (6 mm) from the fold.",
        ),
        (
            "{hem: front.hem, turns: [1/4 in, 3/4 in]}",
            "Turn up the hem of the front by 1/4 in (6 mm) and again by 3/4 in (1.9 cm) and stitch.",
        ),
        ("{finish: neck facing.outer, how: zigzag}", "Finish the outer edge of the neck facing with a zigzag stitch."),
        ("finish: neck facing.outer", "Finish the outer edge of the neck facing."),
        ("{press: up, of: front.hem}", "Press the hem of the front to the wrong side."),
        ("{tack: neck facing, to: front}", "Tack the neck facing to the front by hand."),
        ("tack: neck facing", "Tack the neck facing by hand."),
        ("{close: front.hem, by: hand}", "Close the hem of the front by hand."),
        (
            "{pipe: front.side, with: piping, cord: 3/16 in}",
            "Baste the piping, folded round a cord of 3/16 in (5 mm), along the side of the front, with its cord away "
            "from the edge.",
        ),
        (
            "{sew: [front.side, back.side], seam: piped, with: piping, cord: 3/16 in}",
            "Lay the piping, folded round a cord of 3/16 in (5 mm), between the front and back sides, cord away from "
            "the edge, and sew right sides together, 5/8 in (1.5 cm) from the edge, close beside the cord.",
        ),
        ("{buttonhole: front.side, count: 1}", "Make one buttonhole along the side of the front."),
        (
            "{buttonhole: front.side, count: {A: 5, B: 6, C: 6}, every: 3 in}",
            "Make the buttonholes along the side of the front, 3 in (7.6 cm) apart: "
            "five in view A, six in view B and six in view C.",
        ),
    ],
)
def test_an_entry_says_what_hands_do(tmp_path: Path, entry: str, words: str) -> None:
    """The template of the operation or construction, filled with the pattern's names and both systems' measures."""
    assert said(tmp_path, entry) == words


def test_a_plan_of_one_view_says_its_own_count(tmp_path: Path) -> None:
    """No choice is left to the reader of one view."""
    assert said(tmp_path, "{button: front.side, count: {A: 5, B: 6}}", view="B").startswith("Sew six buttons")


def test_later_entries_speak_of_the_seam(tmp_path: Path) -> None:
    """Trim, clip and press say which seam only where they must."""
    words = said(
        tmp_path, "{sew: [front.shoulder, back.shoulder], as: shoulder seam}", "trim: 3/8 in", "clip: corners",
        "press: toward back", "{trim: 1/4 in, of: shoulder seam}", "{topstitch: seam, at: 1/4 in}",
    )  # fmt: skip
    assert words.split(". ", 1)[1].split("\n\n") == [
        "Trim the seam allowances to 3/8 in (1 cm). Clip the seam allowances at the corners. "
        "Press the seam toward the back. Trim the seam allowances of the shoulder seam to 1/4 in (6 mm).",
        "Topstitch the seam, 1/4 in (6 mm) from the seam.",
    ]


def test_says_replaces_the_words_and_is_read_as_text(tmp_path: Path) -> None:
    """The writer's own words stand for one entry, marks and measures included."""
    words = said(tmp_path, '{sew: [front.side, back.side], says: "Sew *both* sides at 1/2 in."}', "press: open")
    assert words == "Sew both sides at 1/2 in (1.3 cm). Press the seam open."


def test_the_writers_text_wins(tmp_path: Path) -> None:
    """Work with a text beside it prints the text alone."""
    steps = "  - {id: sew, title: Sew, text: Just sew., work: [{sew: [front.side, back.side]}]}\n"
    assert plain(small.step(small.plan(tmp_path, steps), "sew").text) == "Just sew."


def test_braces_and_brackets_in_a_name_are_a_name(tmp_path: Path) -> None:
    """What a template fills in is never read as a template."""
    head = small.HEAD.replace("  neck facing:", '  "{x} [y]":')
    steps = '  - {id: sew, title: Sew, work: [{press part: "{x} [y]"}]}\n'
    assert plain(small.step(small.plan(tmp_path, steps, head=head), "sew").text) == "Press the {x} [y]."


@pytest.mark.parametrize("name", small.DEMOS)
def test_the_demos_could_do_without_their_text(name: str) -> None:
    """Every entry of theirs has words: no field is left open, no sentence unfinished."""
    from booklet.plan.stages import Course
    from booklet.plan.words import work_prose
    from booklet.plan.write import Writer

    edition = small.demo(name)
    writer = Writer(edition.pattern)
    for bench in edition.benches:
        acts = Course(bench).acts
        for step in bench.steps:
            words = plain(work_prose(edition.pattern, step, acts.get(step.id, []), (bench.view.letter,), writer))
            assert "what the pattern says" not in words
            assert not set("{}[]") & set(words)
            assert all(sentence.endswith(".") for sentence in words.split("\n\n"))
