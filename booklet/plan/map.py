"""The map of the garment: the lanes of all views in one, what views share once."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from booklet.plan.flow import GarmentMap, Joint, Lane
from booklet.plan.joints import lanes_of
from booklet.plan.naming import listed
from booklet.plan.steps import view_words
from booklet.plan.write import one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from booklet.model.pattern import Pattern
    from booklet.sew.bench import Bench


def map_of(pattern: Pattern, benches: Sequence[Bench]) -> GarmentMap | None:
    """benches: of the views that are to stand in it, one each. None where nothing is joined to anything."""
    views = tuple(bench.view.letter for bench in benches)
    ranks = _ranks(pattern, benches)
    lanes = _merged([lane for bench in benches for lane in lanes_of(bench, ranks)], views, ranks)
    if not any(lane.joints for lane in lanes):
        return None
    return GarmentMap(views, tuple(lanes), one_line(pattern.name), tuple(_sentences(lanes, views)))


def _ranks(pattern: Pattern, benches: Sequence[Bench]) -> dict[str, int]:
    """What all views cut comes first, so that it goes on in all of them; then in the order of the source."""
    keys = dict.fromkeys(key for bench in benches for key in bench.cuts)
    order = {name: at for at, name in enumerate(pattern.pieces)}

    def rank(key: str) -> tuple[int, int, int]:
        holders = [bench.cuts[key] for bench in benches if key in bench.cuts]
        return len(benches) - len(holders), order[same_name(holders[0].piece.name)], len(key)

    return {key: at for at, key in enumerate(sorted(keys, key=rank))}


def _merged(lanes: Iterable[Lane], views: tuple[str, ...], ranks: dict[str, int]) -> list[Lane]:
    """Lanes of one piece become one."""
    by_key = groupby(sorted(lanes, key=lambda lane: ranks[lane.key]), key=lambda lane: lane.key)
    return [_one(list(alike), views, ranks) for _, alike in by_key]


def _one(lanes: list[Lane], views: tuple[str, ...], ranks: dict[str, int]) -> Lane:
    by_number: dict[int, list[Joint]] = {}
    for lane in lanes:
        for joint in lane.joints:
            by_number.setdefault(joint.steps[0][0], []).append(joint)
    joints: list[Joint] = []
    name = lanes[0].called
    for number, alike in sorted(by_number.items()):
        mine = tuple(letter for letter in views if any(letter in joint.views for joint in alike))
        enters = _merged((lane for joint in alike for lane in joint.enters), views, ranks)
        makes = next((joint.makes for joint in alike if joint.makes), "")
        if makes == name and not enters:
            continue
        joints.append(Joint(((number, mine),), tuple(enters), "" if makes == name else makes))
        name = makes or name
    return lanes[0]._replace(
        views=tuple(letter for letter in views if any(letter in lane.views for lane in lanes)),
        joints=tuple(_either(joints, views, ranks)),
        fused=tuple(sorted({number for lane in lanes for number in lane.fused})),
    )


def _either(joints: list[Joint], views: tuple[str, ...], ranks: dict[str, int]) -> Iterator[Joint]:
    """Neighbours in which different views take in the same piece, as one joint with the number of each."""
    held: Joint | None = None
    for joint in joints:
        if held is not None and _same_joint(held, joint):
            lanes = _merged((*held.enters, *joint.enters), views, ranks)
            held = Joint((*held.steps, *joint.steps), tuple(lanes), held.makes or joint.makes)
            continue
        if held is not None:
            yield held
        held = joint
    if held is not None:
        yield held


def _same_joint(one: Joint, other: Joint) -> bool:
    entering = {lane.key for lane in one.enters} & {lane.key for lane in other.enters}
    return bool(entering) and not set(one.views) & set(other.views)


def _sentences(lanes: Sequence[Lane], views: tuple[str, ...]) -> list[str]:
    """One for each joint, in the order of sewing."""
    said: list[tuple[int, str]] = []
    todo = list(lanes)
    for lane in todo:
        name = lane.called
        for joint in lane.joints:
            todo += joint.enters
            said.append((joint.steps[0][0], _sentence(joint, name, views)))
            name = joint.makes or name
    return [sentence for _, sentence in sorted(said, key=lambda row: row[0])]


def _sentence(joint: Joint, name: str, views: tuple[str, ...]) -> str:
    """`Step 15 joins the back to the front: the body.`"""
    whole = set(joint.views) == set(views) and len(joint.steps) == 1
    steps = (f"step {number}" + ("" if whole else f", for {view_words(letters)},") for number, letters in joint.steps)
    step = " or ".join(steps)
    step = f"{step[:1].upper()}{step[1:]}"
    if not joint.enters:
        return f"{step} makes the {joint.makes}."
    entering = listed(dict.fromkeys(f"the {lane.part}" for lane in joint.enters))
    return f"{step} joins {entering} to the {name}{f': the {joint.makes}' if joint.makes else ''}."
