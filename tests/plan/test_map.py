"""The map of the garment: what comes together on the bench comes together in it, what views share stands in it once."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from booklet.pipeline import check_folder
from booklet.plan.flow import GarmentMap, Lane
from booklet.plan.joints import lanes_of
from booklet.plan.map import map_of
from booklet.sew.bench import Bench
from tests.plan.small import DEMOS, STEPS, demo, plan
from tests.sew.test_wardrobe import WARDROBE, checked

PATTERNS = sorted((Path(__file__).parents[1] / "faults" / "patterns").iterdir())
FOLDERS = [*(STEPS / name for name in DEMOS), *PATTERNS]


@cache
def benches(folder: Path) -> list[Bench]:
    made = check_folder(folder) if folder.parent != STEPS else demo(folder.name)
    return [bench for bench in made.benches if not bench.left_out]


def mapped(folder: Path) -> GarmentMap:
    made = map_of(benches(folder)[0].pattern, benches(folder))
    assert made is not None
    return made


def hanging(bench: Bench) -> list[frozenset[str]]:
    """What hangs together at the end of a view's lanes, by the keys of its cut pieces."""
    lanes = lanes_of(bench, {key: at for at, key in enumerate(bench.cuts)})
    return [frozenset(one.key for one in lane.every()) for lane in lanes]


def groups(bench: Bench) -> list[frozenset[str]]:
    """The same by the bench itself; what is fused is no lane."""
    keys = {cut: key for key, cut in bench.cuts.items()}
    fused = {keys[cut] for act in bench.of("fuse") for cut in act.cuts if cut.called != cut.piece.name}
    made = (frozenset(keys[cut] for cut in group.cuts) - fused for group in bench.groups)
    return [group for group in made if group]


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_what_hangs_together_on_the_bench_does_so_in_the_map(folder: Path) -> None:
    for bench in benches(folder):
        assert sorted(map(sorted, hanging(bench))) == sorted(map(sorted, groups(bench)))


@pytest.mark.parametrize("file", WARDROBE, ids=lambda file: file.stem)
def test_and_so_for_each_way_of_the_hands(file: Path, tmp_path: Path) -> None:
    for bench in checked(file.read_text(encoding="utf-8"), tmp_path / "w").benches:
        assert sorted(map(sorted, hanging(bench))) == sorted(map(sorted, groups(bench)))


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_every_piece_of_every_view_stands_in_it(folder: Path) -> None:
    """Once, for all views that cut it; a lane that ends in another ends there for views that sew that step."""
    made = mapped(folder)
    for bench in benches(folder):
        letter = bench.view.letter
        mine = [lane.key for lane in made.every if letter in lane.views]
        assert sorted(mine) == sorted(key for group in groups(bench) for key in group)
    for lane in made.every:
        for joint in lane.joints:
            assert all(set(one.views) & set(joint.views) for one in joint.enters)


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: folder.name)
def test_its_numbers_are_the_steps_that_join(folder: Path) -> None:
    """Along every lane they rise, and what flows in has been made before."""

    def rising(lane: Lane) -> int:
        last = 0
        for joint in lane.joints:
            assert joint.steps[0][0] > last
            last = max(number for number, _ in joint.steps)
            for one in joint.enters:
                assert rising(one) <= last
        return last

    for lane in mapped(folder).lanes:
        rising(lane)


def test_what_views_share_stands_once() -> None:
    """The tunic has one trunk for its three views, and the sleeves of B and C in one joint. In the tote A and B join
    the same facing in steps 16 and 17: one joint."""
    tunic = mapped(STEPS / "saltmarsh-tunic")
    (front,) = tunic.lanes
    assert (front.key, front.views) == ("front", ("A", "B", "C"))
    assert [joint.steps for joint in front.joints][-2:] == [((23, ("A",)),), ((41, ("B", "C")),)]
    assert [lane.called for lane in front.joints[-1].enters] == ["elbow sleeve", "long sleeve"]
    assert [joint.makes for joint in front.joints] == ["", "", "front with facing", "body", "", "", ""]
    assert {lane.key: lane.fused for lane in tunic.every if lane.fused}["outer collar"] == (6,)
    tote = mapped(STEPS / "lantern-tote")
    steps = [joint.steps for lane in tote.every for joint in lane.joints if len(joint.steps) > 1]
    assert steps == [((16, ("A",)), (17, ("B",)))]
    assert sum(lane.key == "facing" for lane in tote.every) == 1


def test_it_says_the_same_in_sentences() -> None:
    said = mapped(STEPS / "saltmarsh-tunic").says
    assert said[0] == "Step 9, for view C, joins the patch pocket to the front."
    assert "Step 10 makes the loops." in said
    assert "Step 15 joins the back to the front with facing: the body." in said
    assert said[-1] == "Step 41, for views B and C, joins the sleeves to the body."
    assert (
        "Step 16, for view A, or step 17, for view B, joins the lining and the zip strip to the facing."
        in mapped(STEPS / "lantern-tote").says
    )


def test_a_plan_of_one_view_maps_that_view() -> None:
    garment = demo("saltmarsh-tunic").view_plan("A").map
    assert garment is not None
    assert garment.views == ("A",)
    assert not {"elbow sleeve", "long sleeve"} & {lane.key for lane in garment.every}
    assert "Step 23 joins the armhole facings to the body." in garment.says


def test_there_is_none_where_nothing_is_joined(tmp_path: Path) -> None:
    assert (
        plan(
            tmp_path, "  - title: Staystitch\n    work:\n      - staystitch: [front.neckline]\n        at: 1/2 in\n"
        ).map
        is None
    )
