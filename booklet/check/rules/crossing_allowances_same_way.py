"""Two seams that meet at a crossing are pressed to the same side.

What it finds: a seam that crosses another on each of its two sides, both pressed toward the front, or both toward the
back (left, right), where the two meet: each is the only seam of its side, or both join edges of the same names.

Why it matters at the machine: four allowances lie on one another at that point. The needle stalls in the lump, and it
can be seen from outside.

Wrong:
    pieces:
      top front: {number: 1, cut: {self: 1}, edges: {neck: {}, side: {}, waist: {}, fold: {}}}
      top back: {number: 2, cut: {self: 1}, edges: {neck: {}, side: {}, waist: {}, fold: {}}}
      skirt front: {number: 3, cut: {self: 1}, edges: {waist: {}, side: {}, hem: {}, fold: {}}}
      skirt back: {number: 4, cut: {self: 1}, edges: {waist: {}, side: {}, hem: {}, fold: {}}}
    steps:
      - {id: top, title: Top, work: [{sew: [top front.side, top back.side]}, {press: toward top back}]}
      - {id: skirt, title: Skirt, work: [{sew: [skirt front.side, skirt back.side]}, {press: toward skirt back}]}
      - id: waist
        title: Waist
        work: [{sew: [[top front.waist, top back.waist], [skirt front.waist, skirt back.waist]]}]

Right:
    pieces:
      top front: {number: 1, cut: {self: 1}, edges: {neck: {}, side: {}, waist: {}, fold: {}}}
      top back: {number: 2, cut: {self: 1}, edges: {neck: {}, side: {}, waist: {}, fold: {}}}
      skirt front: {number: 3, cut: {self: 1}, edges: {waist: {}, side: {}, hem: {}, fold: {}}}
      skirt back: {number: 4, cut: {self: 1}, edges: {waist: {}, side: {}, hem: {}, fold: {}}}
    steps:
      - {id: top, title: Top, work: [{sew: [top front.side, top back.side]}, {press: toward top back}]}
      - {id: skirt, title: Skirt, work: [{sew: [skirt front.side, skirt back.side]}, {press: toward skirt front}]}
      - id: waist
        title: Waist
        work: [{sew: [[top front.waist, top back.waist], [skirt front.waist, skirt back.waist]]}]

Source: common practice, no source: allowances that meet at a crossing are pressed in opposite directions, to spread
the bulk.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.meant import ways
from booklet.check.numbers import seam_said
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, Layer, Seam

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for crossing in _crossings(bench):
        first, second = (_crossed(layer, crossing) for layer in crossing.layers)
        for one in first:
            for two in second:
                met = len(first) == len(second) == 1 or _names(one) == _names(two)
                found = _same_way(one, two, crossing) if one is not two and met else None
                if found is not None and not told(bench, crossing.act.step, one.act.step, two.act.step):
                    yield found


def _crossings(bench: Bench) -> list[Seam]:
    """The seams of two sides that cross one which was pressed to a side, in the order in which they are sewn."""
    pressed = [seam for seam in bench.seams if any(_way(act) for act in seam.acts("press"))]
    corners = (near for seam in pressed for edge in seam.edges for near in edge.neighbours)
    found = {seam for near in corners for seam in near.seams if len(seam.layers) == 2}
    return sorted(found, key=lambda seam: seam.act.time)


def _crossed(layer: Layer, crossing: Seam) -> list[Seam]:
    """The seams that run into this side: both of its edges end in it, or the two copies of its one."""
    mine = set(layer.edges)
    found: dict[Seam, int] = {}
    for edge in layer.edges:
        for seam in {seam for near in edge.neighbours for seam in near.seams}:
            if seam.act.time < crossing.act.time and mine.isdisjoint(seam.edges):
                found[seam] = found.get(seam, 0) + 1
    through = [seam for seam, ends in found.items() if ends >= min(2, len(seam.edges))]
    return sorted(through, key=lambda seam: seam.act.time)


def _names(seam: Seam) -> set[str]:
    return {edge.name for edge in seam.edges}


def _pressed(seam: Seam, before: int) -> Act | None:
    presses = [act for act in seam.acts("press") if act.time < before]
    return presses[-1] if presses and presses[-1].entry.word is not None else None


def _way(press: Act | None) -> str:
    """The one word that tells to which side: front, back, left or right."""
    words = same_name(press.entry.word.value) if press is not None and press.entry.word else ""
    named = ways() & set(words.removeprefix("toward ").split()) if words.startswith("toward ") else set()
    return next(iter(named)) if len(named) == 1 else ""


def _same_way(one: Seam, two: Seam, crossing: Seam) -> Found | None:
    first, second = _pressed(one, crossing.act.time), _pressed(two, crossing.act.time)
    if first is None or second is None or first is second or not _way(first) or _way(first) != _way(second):
        return None
    if first.time > second.time:
        one, two, first, second = two, one, second, first
    assert second.entry.word is not None
    others = [edge.cut.called for edge in two.edges if _way(first) not in same_name(edge.cut.called).split()]
    return Found(
        second.entry.word.place,
        second.step,
        f"Where {seam_said(one)} and {seam_said(two)} meet, in {crossing.act.step.called}, both lie toward the "
        f"{_way(first)}, one on the other.",
        f"Write “toward {others[0]}”." if others else "Press one of the two to the other side.",
        (Related("The other is pressed here", first.place), Related("They meet here", crossing.act.place)),
    )
