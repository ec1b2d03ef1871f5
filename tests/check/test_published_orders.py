"""Published orders sew without a finding, customary alternatives too, and every broken hard pair is caught."""

from __future__ import annotations

import random
from collections.abc import Iterable
from pathlib import Path
from typing import NamedTuple

import pytest

from booklet.pipeline import check_folder
from tests.check.published import (
    FLAT_SHIFT,
    FLAT_SLEEVE,
    FREE,
    GARMENTS,
    HARD,
    OF_THESE_GARMENTS,
    ORDER_A,
    SHIFT,
    SHIRT,
    SKIRT,
    WAISTED,
    Garment,
)  # fmt: skip

Pair = tuple[str, str]

# A sample of two operations leaves the rest of the garment undone.
UNFINISHED = {
    "dart-never-sewn",
    "edge-left-raw",
    "more-than-one-garment",
    "notion-never-used",
    "notions-differ",
    "part-never-used",
}


class Caught(NamedTuple):
    """A pair, the garment in which it is broken, and the rule that says so.

    `part-made-later`: the unit method, each unit is made before it is joined. `step-before-its-after`: the parts alone
    don't show the reason, and the writer has said it with `after:`; orders/*.yaml says which.
    """

    pair: Pair
    garment: Garment
    rule: str


CAUGHT = (
    # staystitch at once after cutting: Guideline 11.135; ICAR
    Caught(("staystitch", "darts_tucks_pleats"), WAISTED, "staystitch-after-crossing-seam"),
    Caught(("staystitch", "style_seams"), SHIRT, "staystitch-after-crossing-seam"),
    Caught(("staystitch", "shoulder_seam"), SHIFT, "staystitch-after-crossing-seam"),
    Caught(("staystitch", "side_seam"), SHIFT, "staystitch-after-crossing-seam"),
    Caught(("staystitch", "neck_facing_attached"), SHIFT, "staystitch-too-late"),
    Caught(("staystitch", "collar_attached"), SHIRT, "staystitch-too-late"),
    # interfacing before the part is assembled: the unit method
    Caught(("interface", "collar_made"), SHIRT, "fuse-too-late"),
    Caught(("interface", "neck_facing_attached"), SHIFT, "fuse-too-late"),
    Caught(("interface", "waistband_or_waist_facing"), SKIRT, "fuse-too-late"),
    Caught(("interface", "buttonholes"), SHIRT, "fuse-too-late"),
    # darts before seams that cross them: ORDER_A 1 to 3; Goodheart-Willcox (2012), p. 468
    Caught(("darts_tucks_pleats", "shoulder_seam"), WAISTED, "dart-too-late"),
    Caught(("darts_tucks_pleats", "side_seam"), WAISTED, "dart-too-late"),
    Caught(("darts_tucks_pleats", "waistband_or_waist_facing"), SKIRT, "dart-too-late"),
    Caught(("darts_tucks_pleats", "bodice_to_skirt"), WAISTED, "dart-too-late"),
    # all front work, then all back work, then the shoulders: a teaching page
    Caught(("style_seams", "side_seam"), SHIRT, "part-made-later"),
    Caught(("style_seams", "shoulder_seam"), SHIRT, "part-made-later"),
    # pockets on flat panels before side seams: an extension order
    Caught(("pockets_on_flat", "side_seam"), SKIRT, "pocket-too-late"),
    # ORDER_A 1 before 4; the band and the facing cover the zipper's end
    Caught(("zipper_in_flat_seam", "waistband_or_waist_facing"), SKIRT, "step-before-its-after"),
    Caught(("zipper_in_flat_seam", "neck_facing_attached"), SHIFT, "step-before-its-after"),
    # ORDER_A 3 before 4 and 6
    Caught(("shoulder_seam", "neck_facing_attached"), SHIFT, "part-made-later"),
    Caught(("shoulder_seam", "collar_attached"), SHIRT, "part-made-later"),
    Caught(("shoulder_seam", "sleeve_set_round"), SHIFT, "part-made-later"),
    # ORDER_A 4
    Caught(("facing_pieces_joined", "neck_facing_attached"), SHIFT, "part-made-later"),
    Caught(("facing_edge_finished", "neck_facing_attached"), SHIFT, "step-before-its-after"),
    # collar ready when the shoulders are done: a teaching page
    Caught(("collar_made", "collar_attached"), SHIRT, "part-made-later"),
    # ORDER_A 5 before 6 and 7; bodice and skirt each complete before the waist seam: published
    Caught(("side_seam", "waistband_or_waist_facing"), SKIRT, "part-made-later"),
    Caught(("side_seam", "sleeve_set_round"), SHIFT, "part-made-later"),
    Caught(("side_seam", "bodice_to_skirt"), WAISTED, "part-made-later"),
    Caught(("side_seam", "lower_hem"), SKIRT, "hem-too-early"),
    # ORDER_A 6
    Caught(("sleeve_made_up", "sleeve_set_round"), SHIFT, "part-made-later"),
    # the waist seam before a zipper that crosses it: published
    Caught(("bodice_to_skirt", "zipper_across_waist"), WAISTED, "part-made-later"),
    # the hem last: ORDER_A 7; NMSU C-314; Hems (1959)
    Caught(("bodice_to_skirt", "lower_hem"), WAISTED, "part-made-later"),
    Caught(("zipper_across_waist", "lower_hem"), WAISTED, "hem-too-early"),
    Caught(("waistband_or_waist_facing", "lower_hem"), SKIRT, "step-before-its-after"),
    Caught(("sleeve_set_round", "lower_hem"), SHIFT, "step-before-its-after"),
    # chestofbooks.com, Home and School Sewing, Fastenings
    Caught(("buttonholes", "buttons_hooks_snaps"), SKIRT, "button-before-buttonhole"),
)

# L. Baldt, Clothing for Women (1916): sleeve in, then sleeve and underarm in one line, then the hems.
CAUGHT_FLAT = (
    Caught(("shoulder_seam", "sleeve_set_flat"), FLAT_SHIFT, "part-made-later"),
    Caught(("sleeve_set_flat", "side_and_underarm_continuous"), FLAT_SHIFT, "part-made-later"),
    Caught(("side_and_underarm_continuous", "lower_hem"), FLAT_SHIFT, "hem-too-early"),
    Caught(("side_and_underarm_continuous", "sleeve_hem"), FLAT_SHIFT, "hem-too-early"),
)


def found(garment: Garment, order: list[str], folder: Path) -> set[tuple[str, str | None]]:
    """The rule and the step of each finding."""
    return {(finding.rule, finding.step) for finding in check_folder(garment.write(folder, order)).findings}


def in_order(operations: list[str], pairs: Iterable[Pair]) -> list[str]:
    """The operations so that every pair is kept, otherwise as they stand."""
    pairs = [pair for pair in pairs if set(pair) <= set(operations)]
    left, done = list(operations), []
    while left:
        free = [name for name in left if not any(second == name and first in left for first, second in pairs)]
        assert free, "these pairs contradict one another"
        done.append(free[0])
        left.remove(free[0])
    return done


def between(pair: Pair, pairs: Iterable[Pair]) -> set[str]:
    """The operations on a longer way from the first to the second."""

    def reached(start: str, ways: list[Pair]) -> set[str]:
        seen, todo = set(), [start]
        while todo:
            here = todo.pop()
            for first, second in ways:
                if first == here and second not in seen:
                    seen.add(second)
                    todo.append(second)
        return seen

    ways = [way for way in pairs if way != pair]
    return reached(pair[0], ways) & reached(pair[1], [(second, first) for first, second in ways])


def shuffled(garment: Garment, chance: random.Random) -> list[str]:
    """Another order of the garment's operations that keeps every published pair."""
    operations = list(garment.steps)
    chance.shuffle(operations)
    return in_order(operations, (*HARD, *FLAT_SLEEVE, *OF_THESE_GARMENTS))


def test_the_pairs_are_all_here_and_each_is_broken_once() -> None:
    """The published list has 36 hard pairs."""
    assert len(HARD) == 36
    assert [caught.pair for caught in CAUGHT] == list(HARD)
    assert [caught.pair for caught in CAUGHT_FLAT] == list(FLAT_SLEEVE)


def test_the_order_of_the_unit_method_is_sewn_without_a_finding(tmp_path: Path) -> None:
    """The Unit Method of Construction, as summarised on a teaching page."""
    assert found(SHIFT, ORDER_A, tmp_path / "dress") == set()


@pytest.mark.parametrize("garment", GARMENTS, ids=[garment.name for garment in GARMENTS])
def test_each_garment_is_sewn_without_a_finding(garment: Garment, tmp_path: Path) -> None:
    """FLAT_SHIFT is Baldt's order of 1916."""
    order = list(garment.steps)
    assert in_order(order, (*HARD, *FLAT_SLEEVE, *OF_THESE_GARMENTS)) == order
    assert found(garment, order, tmp_path / "garment") == set()


@pytest.mark.parametrize("garment", GARMENTS, ids=[garment.name for garment in GARMENTS])
def test_no_order_that_keeps_the_published_pairs_is_blamed(garment: Garment, tmp_path: Path) -> None:
    """Twenty orders of each garment, drawn by chance but the same each time: the order of sewing is a partial order."""
    chance = random.Random(garment.name)
    for index in range(20):
        order = shuffled(garment, chance)
        assert found(garment, order, tmp_path / str(index)) == set(), order


@pytest.mark.parametrize("pair", FREE, ids=["-".join(pair) for pair in FREE])
def test_what_is_only_customary_is_never_blamed(pair: Pair, tmp_path: Path) -> None:
    """Published orders disagree about these: both ways round sew without a finding."""
    kept = (*HARD, *OF_THESE_GARMENTS)
    garments = [garment for garment in GARMENTS if set(pair) <= set(garment.steps)]
    assert garments
    for garment in garments:
        for first, second in (pair, pair[::-1]):
            order = in_order(list(garment.steps), (*kept, (first, second)))
            assert order.index(first) < order.index(second)
            assert found(garment, order, tmp_path / f"{garment.name} {first}") == set(), order


@pytest.mark.parametrize("caught", [*CAUGHT, *CAUGHT_FLAT], ids=lambda caught: "-".join(caught.pair))
def test_a_broken_pair_is_caught(caught: Caught, tmp_path: Path) -> None:
    """The same steps in another order, in which this pair alone is broken.

    What lies on a longer way from the first to the second is left out, and what it would make lies there ready made.
    """
    pair, garment, rule = caught
    pairs = [*HARD, *FLAT_SLEEVE, *OF_THESE_GARMENTS]
    operations = [name for name in garment.steps if name not in between(pair, pairs)]
    kept = [other for other in pairs if other != pair]
    order = in_order(operations, [*kept, pair[::-1]])
    broken = [
        other
        for other in (*HARD, *FLAT_SLEEVE)
        if set(other) <= set(order) and order.index(other[0]) > order.index(other[1])
    ]
    assert broken == [pair]

    good = found(garment, operations, tmp_path / "good")
    assert {name for name, _ in good} <= UNFINISHED
    new = found(garment, order, tmp_path / "broken") - good
    assert {(name, step) for name, step in new if name == rule and step in pair}, new
