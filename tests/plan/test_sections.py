"""Which sections through the cloth a step shows, and what they say of the work."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.plan.plan import Art, Figure, Section
from tests.plan import small


def asked(tmp_path: Path, work: str, head: str = small.HEAD) -> list[Figure]:
    """The figures of one step with this work."""
    steps = f"  - id: sew\n    title: Sew\n    text: Sew.\n    work:\n{work}"
    return list(small.step(small.plan(tmp_path, steps, head=head), "sew").figures)


def stages(figure: Figure) -> list[str]:
    assert isinstance(figure, Section)
    return [" ".join([stage.op, *map(str, stage.measures), stage.manner]).strip() for stage in figure.stages]


def test_a_plain_seam_is_stitched_and_then_what_was_done_to_it(tmp_path: Path) -> None:
    """Allowance, sides and stages are those of the work."""
    (figure,) = asked(
        tmp_path,
        "      - sew: [front.shoulder, back.shoulder]\n      - trim: 3/8 in\n"
        "      - {finish: seam, how: zigzag}\n      - press: open\n",
    )
    assert isinstance(figure, Section)
    assert (figure.construction, str(figure.allowance), figure.sides) == ("plain", "5/8 in", ("Front", "Back"))
    assert stages(figure) == ["stitch 5/8 in", "trim 3/8 in", "finish zigzag", "press open"]


def test_a_french_seam_has_its_two_passes(tmp_path: Path) -> None:
    """Source: Oklahoma Coop. Ext. 4-H No. 810: 3/8 in wrong sides together, trim to 1/8 in, 1/4 in from the fold."""
    (figure,) = asked(
        tmp_path,
        "      - {sew: [front.shoulder, back.shoulder], seam: french, passes: [3/8 in, 1/4 in], trim: 1/8 in}\n"
        "      - press: toward back\n",
    )
    assert stages(figure) == [
        "stitch 3/8 in wrong sides together", "trim 1/8 in", "fold", "stitch 1/4 in", "press toward back",
    ]  # fmt: skip


def test_a_felled_seam_is_pressed_toward_the_side_that_is_trimmed(tmp_path: Path) -> None:
    """Source: Central Washington Univ., costume text, ch. 21: press one way, trim the under allowance, fold over it."""
    (figure,) = asked(
        tmp_path,
        "      - {sew: [front.side, back.side], seam: flat felled, trim: 1/4 in, width: 3/8 in}\n"
        "      - clip: to the stitching\n",
    )
    assert stages(figure) == ["stitch 5/8 in", "press toward back", "trim 1/4 in", "fold 3/8 in", "topstitch 3/8 in"]


@pytest.mark.parametrize(
    ("work", "construction", "expected"),
    [
        ("      - {hem: front.hem, turns: [1/2 in, 1/2 in]}\n", "double hem", ["fold 1/2 in 1/2 in", "stitch fold"]),
        (
            "      - {finish: front.hem, how: overlock}\n      - {hem: front.hem, turns: [1 in]}\n",
            "double hem",
            ["finish overlock", "fold 1 in", "stitch fold"],
        ),
        (
            "      - {casing: front.hem, turns: [1/4 in, 3/4 in], at: 5/8 in}\n",
            "casing",
            ["fold 1/4 in 3/4 in", "stitch fold 5/8 in"],
        ),
    ],
)
def test_hems_and_casings_are_their_turns_and_the_row_that_holds_them(
    tmp_path: Path, work: str, construction: str, expected: list[str]
) -> None:
    """The allowance is the whole of what is turned up."""
    (figure,) = asked(tmp_path, work)
    assert isinstance(figure, Section)
    assert (figure.construction, str(figure.allowance), figure.sides) == (construction, "1 in", ("Front",))
    assert stages(figure) == expected


FACING = """\
  - id: face
    title: Face the neck
    text: Sew.
    work:
      - sew: [[front.neckline, back.neckline], neck facing.neckline]
      - grade: [1/4 in, 1/8 in]
      - clip: every 1/2 in
  - id: understitch
    title: Understitch
    text: Sew.
    work:
      - press: toward neck facing
      - understitch: neck facing
"""


def test_what_is_done_shortly_after_belongs_to_the_figure(tmp_path: Path) -> None:
    """The facing is pressed and understitched in the next step; the figure of the seam shows where that leads."""
    made = small.plan(tmp_path, FACING)
    (figure,) = small.step(made, "face").figures
    assert stages(figure) == [
        "stitch 5/8 in", "grade 1/4 in 1/8 in", "clip 1/2 in", "press toward neck facing",
        "understitch toward neck facing",
    ]  # fmt: skip
    assert small.step(made, "understitch").figures == ()


def test_what_is_done_much_later_has_its_own_step(tmp_path: Path) -> None:
    """Two steps on at most."""
    idle = "".join(f"  - {{id: idle {n}, title: Idle, uses: [front], text: Wait.}}\n" for n in range(3))
    before, after = FACING.split("  - id: understitch")
    made = small.plan(tmp_path, f"{before}{idle}  - id: understitch{after}")
    assert stages(small.step(made, "face").figures[0])[-1] == "clip 1/2 in"


def test_a_seam_that_is_turned_is_enclosed(tmp_path: Path) -> None:
    """A facing sewn to its like and turned right side out shuts its allowances in."""
    steps = """\
  - id: sew
    title: Sew
    text: Sew.
    work:
      - sew: [neck facing.neckline, neck facing.neckline]
    makes: band
  - {id: turn, title: Turn, text: Turn., work: [{turn: band}]}
"""
    (figure,) = small.step(small.plan(tmp_path, steps), "sew").figures
    assert isinstance(figure, Section)
    assert (figure.construction, stages(figure)) == ("enclosed", ["stitch 5/8 in", "turn"])


SEAMS = """\
  - {id: shoulders, title: Shoulders, text: Sew., work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
  - {id: sides, title: Sides, text: Sew., work: [{sew: [front.side, back.side]}, {press: open}]}
  - id: sleeves
    title: Sleeves
    for: sleeves
    text: Sew.
    work: [{sew: [sleeve.underarm front, sleeve.underarm back]}, {press: toward sleeve}]
"""
SIDES_OPEN = "{sew: [front.side, back.side]}, {press: open}"


def test_a_construction_is_shown_once(tmp_path: Path) -> None:
    """Two plain seams pressed open look alike whatever they join."""
    made = small.plan(tmp_path, SEAMS)
    assert [bool(step.figures) for step in made.steps] == [True, False, True]


def test_each_view_meets_a_construction_where_it_first_sews_it(tmp_path: Path) -> None:
    """What view A saw in a step of its own, the others are shown where they come to it."""
    made = small.plan(tmp_path, SEAMS.replace("id: shoulders, title: Shoulders,", "id: shoulders, title: S, for: A,"))
    assert [bool(step.figures) for step in made.steps] == [True, True, True]


def test_the_beginning_of_what_was_shown_shows_nothing_new(tmp_path: Path) -> None:
    """A seam pressed open was stitched first; a seam only stitched needs no figure after it."""
    made = small.plan(tmp_path, SEAMS.replace(SIDES_OPEN, "{sew: [front.side, back.side]}"))
    assert not small.step(made, "sides").figures


def test_the_designers_own_drawing_stands_instead(tmp_path: Path) -> None:
    """Art comes first, and nothing computed beside it."""
    (tmp_path / "art").mkdir()
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>'
    (tmp_path / "art" / "a.svg").write_text(drawing, encoding="utf-8")
    steps = SEAMS.replace("title: Sides,", "title: Sides, figure: {file: art/a.svg, shows: The side},")
    steps = steps.replace(SIDES_OPEN, "{sew: [front.side, back.side]}, {press: toward back}")
    assert small.step(small.plan(tmp_path, steps), "sides").figures == (Art("art/a.svg", "The side"),)


@pytest.mark.parametrize("name", small.DEMOS)
def test_no_demo_step_has_more_figures_than_a_reader_can_use(name: str) -> None:
    """Four at most, and never one twice."""
    plan = small.demo(name).plan
    assert all(len(step.figures) <= 4 for step in plan.steps)
    shown = [figure for step in plan.steps for figure in step.figures]
    assert len(shown) == len(set(shown))


def test_the_demos_show_every_construction_that_they_sew() -> None:
    """Plain, French, flat felled, enclosed, overlocked, hems and casings: each at least once."""
    figures = [figure for name in small.DEMOS for figure in small.demo(name).plan.figures]
    found = {figure.construction for figure in figures if isinstance(figure, Section)}
    assert found >= {"plain", "french", "flat felled", "enclosed", "overlocked", "double hem", "casing"}
