"""Charts, fabric, notions and pieces: what a buyer reads before the first cut."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.length import MILLIMETRES, parse
from booklet.plan.measures import text_of
from booklet.plan.plan import Chart
from booklet.plan.prose import plain
from tests.plan import small

STEP = "  - {id: sew, title: Sew, uses: [front], text: Sew.}\n"
CHARTS = """\
charts:
  body measurements: {unit: in, rows: {Bust: [45, 34 1/2], Fit: [loose, 1/4]}, note: Measure level.}
  sleeves: {unit: cm, for: sleeves, rows: {Length: [59, 60.5]}}
"""


def charts(tmp_path: Path, view: str | None = None) -> list[Chart]:
    return small.plan(tmp_path, STEP, view, head=small.HEAD + CHARTS).charts


def test_a_chart_is_given_in_both_systems(tmp_path: Path) -> None:
    """As written first, then in the other; words stay words. 45 in is 115 cm by the house's row, not 1.2 m of cloth."""
    inches, metric = charts(tmp_path)[:2]
    assert (inches.title, inches.unit, inches.rows) == (
        "Body measurements", "in", (("Bust", ("45", "34½")), ("Fit", ("loose", "¼"))),
    )  # fmt: skip
    assert (metric.unit, metric.rows) == ("cm", (("Bust", ("115", "87.5")), ("Fit", ("loose", "0.6"))))


def test_a_note_stands_once_under_both(tmp_path: Path) -> None:
    """With the second of the two tables."""
    inches, metric = charts(tmp_path)[:2]
    assert (plain(inches.note), plain(metric.note)) == ("", "Measure level.")


def test_a_chart_of_some_views_says_so_and_is_kept_from_the_others(tmp_path: Path) -> None:
    """No letters where it is of all the plan's views."""
    assert [chart.views for chart in charts(tmp_path)] == [(), (), ("B", "C"), ("B", "C")]
    assert [chart.title for chart in charts(tmp_path, "A")] == ["Body measurements"] * 2
    assert [chart.views for chart in charts(tmp_path, "B")] == [()] * 4


def test_a_row_that_is_too_short_is_filled_with_dashes(tmp_path: Path) -> None:
    """In a draft a table may be unfinished; its columns still stand under their sizes."""
    head = small.HEAD + "charts:\n  body: {unit: in, rows: {Bust: [34], Hip: [36, 38]}}\n"
    assert small.plan(tmp_path, STEP, head=head).charts[0].rows == (("Bust", ("34", "—")), ("Hip", ("36", "38")))


@pytest.mark.parametrize("name", small.DEMOS)
def test_no_figure_of_a_demo_is_far_from_its_exact_measure(name: str) -> None:
    """1 in is 25.4 mm exactly: NBS Circular 572, addendum.

    Charts are rounded to half a centimetre or a quarter inch, so that none is off by more than half of that; but for
    the house's own row of 45 in for 115 cm.
    """
    plan = small.demo(name).plan
    pairs = [(one, two) for one, two in zip(plan.charts, plan.charts[1:], strict=False) if one.title == two.title]
    assert pairs
    for one, two in pairs:
        for (_, first), (_, second) in zip(one.rows, two.rows, strict=True):
            for a, b in zip(first, second, strict=True):
                exact = parse(f"{a} {one.unit}").millimetres
                off = abs(parse(f"{b} {two.unit}").millimetres - exact)
                assert off <= MILLIMETRES["in"] / 8 or (a, b) == ("45", "115")


def test_views_that_take_the_same_share_a_row(tmp_path: Path) -> None:
    """The width in both systems is a width, the amount an amount, though 45 in and 1 1/4 yd are as long."""
    (fabric,) = (fabric for fabric in small.plan(tmp_path, STEP).fabrics if fabric.rows)
    read = [(row.views, text_of(row.width), *map(text_of, row.amounts)) for row in fabric.rows]
    assert read == [
        (("A",), "45 in (115 cm)", "1 yd (0.95 m)"),
        (("B", "C"), "45 in (115 cm)", "1 1/4 yd (1.2 m)"),
    ]


def test_a_view_reads_of_its_own_fabric_alone(tmp_path: Path) -> None:
    """Rows of other views, and materials that none of its pieces is cut of, are left out."""
    plan = small.plan(tmp_path, STEP, "A")
    assert [(fabric.name, [row.views for row in fabric.rows]) for fabric in plan.fabrics] == [
        ("Main fabric", [("A",)]),
        ("Interfacing", []),
    ]


def test_notions_are_counted_by_view(tmp_path: Path) -> None:
    """A dash where a view needs none, and that it is needed where the writer counts nothing."""
    button, thread = small.plan(tmp_path, STEP).notions
    assert plain(button.item) == "Button, 1/2 in (1.3 cm)"
    assert {view: plain(amount) for view, amount in button.by_view.items()} == {"A": "3", "B": "4", "C": "—"}
    assert {plain(amount) for amount in thread.by_view.values()} == {"✓"}
    assert [plain(notion.item) for notion in small.plan(tmp_path, STEP, "C").notions] == ["Thread"]


def test_pieces_say_how_many_to_cut_of_what(tmp_path: Path) -> None:
    """By the name that the buyer knows the material by, for the views that cut the piece."""
    rows = small.plan(tmp_path, STEP).pieces
    assert (rows[2].number, rows[2].name) == ("3", "Neck facing")
    assert rows[2].cuts == (("Main fabric", "1 on fold"), ("Interfacing", "1 on fold"))
    assert rows[3].views == ("B", "C")
    assert [row.number for row in small.plan(tmp_path, STEP, "A").pieces] == ["1", "2", "3"]
