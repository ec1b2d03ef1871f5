"""Every piece of the Saltmarsh Tunic."""

from __future__ import annotations

from collections.abc import Iterator

from steps.drafting import tunic_small as small
from steps.drafting.piece import Drafted
from steps.drafting.tables import Measures
from steps.drafting.tunic_body import Body, armhole_facing, slit_facing

FOLDER, TITLE = "saltmarsh-tunic", "Saltmarsh Tunic"


def pieces() -> Iterator[Drafted]:
    """Size by size, in the order of their numbers."""
    measures = Measures(FOLDER)
    for size in measures.sizes:
        yield from _in_size(Body(measures, size))


def _in_size(body: Body) -> Iterator[Drafted]:
    front = body.fronts["B"]
    yield from (body.fronts[cup].drafted() for cup in ("B", "D"))
    yield body.back()
    yield slit_facing(body)
    yield small.loop_strip(body)
    yield small.collar(body, inner=False)
    yield small.collar(body, inner=True)
    yield armhole_facing(body, "front armhole facing", front.sleeveless, front.side, double=False)
    yield armhole_facing(body, "back armhole facing", body.back_sleeveless, body.back_side, double=True)
    cap = small.Cap(body)
    elbow = small.elbow_sleeve(body, cap)
    yield elbow
    yield small.sleeve_band(body, elbow.edge("lower edge").length)
    yield small.long_sleeve(body, cap)
    yield small.cuff(body)
    yield small.patch_pocket(body)
