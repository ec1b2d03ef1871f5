"""An edge on the bias is hemmed before it has hung.

What it finds: `hem` on an edge marked `bias: true`, or on a piece so marked, after the piece was sewn to another and
with no `hang:` of it in between. A facing or lining, and a step in between whose text speaks of hanging, are left
out.

Why it matters at the machine: cloth on the bias drops under its own weight in the first day. A hem that was level
when it was sewn dips in wear.

Wrong:
    pieces:
      skirt front: {number: 1, cut: {self: 1}, edges: {side: {}, hem: {allowance: 1 in, bias: true}, waist: {}}}
      skirt back: {number: 2, cut: {self: 1}, edges: {side: {}, hem: {allowance: 1 in, bias: true}, waist: {}}}
    steps:
      - {id: side, title: Join the sides, work: [{sew: [skirt front.side, skirt back.side]}], makes: skirt}
      - {id: hem, title: Hem the skirt, work: [{hem: skirt.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    pieces:
      skirt front: {number: 1, cut: {self: 1}, edges: {side: {}, hem: {allowance: 1 in, bias: true}, waist: {}}}
      skirt back: {number: 2, cut: {self: 1}, edges: {side: {}, hem: {allowance: 1 in, bias: true}, waist: {}}}
    steps:
      - {id: side, title: Join the sides, work: [{sew: [skirt front.side, skirt back.side]}], makes: skirt}
      - {id: hang, title: Let the skirt hang, work: [{hang: skirt}]}
      - {id: hem, title: Hem the skirt, work: [{hem: skirt.hem, turns: [1/4 in, 3/4 in]}]}

Source: published: NMSU Guide C-314: hang it for 24 hours before the hem is marked, above all where it is on the bias.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from booklet.check.acts import between, handlings, told, written
from booklet.check.found import Found
from booklet.check.meant import is_inner
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "warning"
_HANGS = r"(?i)\b(?:hang|hangs|hanging|hung)\b"


def find(bench: Bench) -> Iterator[Found]:
    hung = handlings(bench, "hang")
    for act in bench.of("hem"):
        early: dict[Edge, Act] = {}
        for edge in act.edges:
            on_bias = edge.spec.bias or edge.cut.piece.bias
            if on_bias and edge.closed is act and not edge.excused and not is_inner(edge.cut.called):
                joined = _joined(edge, act.time)
                if joined is not None and not between(hung.get(edge.cut, []), joined.time, act.time):
                    early[edge] = joined
        last = max(early.values(), key=lambda joined: joined.time, default=None)
        if last is not None and not told(bench, act.step, last.step) and not _told_in_words(bench, last, act):
            yield _found(act, list(early), last)


def _joined(edge: Edge, time: int) -> Act | None:
    """The last seam before a time that joined the piece to another, or to its other copy."""
    seams = [seam.act for own in edge.cut.edges.values() for seam in own.seams if seam.act.time < time]
    return max(seams, key=lambda act: act.time, default=None)


def _told_in_words(bench: Bench, joined: Act, act: Act) -> bool:
    between = bench.steps[bench.steps.index(joined.step) : bench.steps.index(act.step) + 1]
    texts = [text for step in between for text in (step.text, step.tip, step.caution) if text]
    return any(re.search(_HANGS, text.value) for text in texts)


def _found(act: Act, edges: list[Edge], joined: Act) -> Found:
    names = list(dict.fromkeys(written(act, edge) for edge in edges))
    lie, they_have = ("lie", "they have") if len(names) > 1 else ("lies", "it has")
    part = names[0].partition(".")[0]
    return Found(
        act.place,
        act.step,
        f"{listed(names)} {lie} on the bias, and {they_have} not hung since {joined.step.called}.",
        f"Add a step with “hang: {part}” before this one, so that the sewer lets it drop for a day.",
        (
            Related("It is drawn on the bias here", edges[0].spec.place),
            Related("It is last sewn to another piece here", joined.place),
        ),
    )
