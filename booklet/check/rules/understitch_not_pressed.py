"""A facing is understitched while its seam is not pressed toward it.

What it finds: `understitch` where the last press of that seam left it open or toward the other side, or where it was
not pressed at all.

Why it matters at the machine: understitching catches the allowances only where they lie under the facing.

Wrong:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}, {press: open}]}
      - {id: under, title: Understitch, work: [{understitch: neck facing}]}

Right:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: under, title: Understitch, work: [{press: toward neck facing}, {understitch: neck facing}]}

Source: published: Goodheart-Willcox (2012), p. 453: seam allowances are pressed toward the facing, then
understitched.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import between, told
from booklet.check.found import Found
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench

LEVEL = "warning"
NOT_TOWARD = ("open", "as sewn", "flat")


def find(bench: Bench) -> Iterator[Found]:
    not_done = [press for press in bench.of("press") if press.broken]
    for act in bench.of("understitch"):
        if act.seam is None or act.broken or told(bench, act.step, act.seam.act.step):
            continue
        if between(not_done, act.seam.act.time, act.time):
            continue
        presses = [press for press in act.seam.acts("press") if press.time < act.time]
        if not presses or _elsewhere(presses[-1], act):
            yield _found(act, presses[-1] if presses else None)


def _elsewhere(press: Act, act: Act) -> bool:
    words = same_name(press.entry.word.value) if press.entry.word else ""
    if words in NOT_TOWARD:
        return True
    return bool(press.parts) and not any(press.parts[0].holds(cut) for cut in act.cuts)


def _found(act: Act, press: Act | None) -> Found:
    thing = act.entry.things[0]
    how = (
        "not been pressed"
        if press is None or press.entry.word is None
        else f"last been pressed {press.entry.word.value.strip()}"
    )
    return Found(
        thing.place,
        act.step,
        f"{thing.written} is understitched, but its seam has {how}.",
        f"Add “press: toward {thing.written}” before the understitching.",
        (Related("It is pressed here", press.place),) if press else (),
    )
