"""Two edges are hemmed before the seam that joins them is sewn.

What it finds: `hem` or `casing` on edges that meet at a seam which is sewn only later, such as front and back hem at
the side seam. An edge that no later seam joins to another hem, a vent or placket, and the free edge of a facing may be
hemmed at any time.

Why it matters at the machine: the hems are cut in two by the seam. Their raw ends show, and they seldom meet level.

Wrong:
    steps:
      - {id: hem, title: Hem, work: [{hem: [front.hem, back.hem], turns: [1/2 in, 1/2 in]}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}

Right:
    steps:
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: hem, title: Hem, work: [{hem: [front.hem, back.hem], turns: [1/2 in, 1/2 in]}]}

Source: published: NMSU Guide C-314, and a thread maker's leaflet Hems (1959): the hem is the final detail of
construction.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, place_of, put_after, told
from booklet.check.found import Found
from booklet.check.meant import is_inner, is_opening
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, Edge, Seam

LEVEL = "error"
TURNED = {"hem": "hemmed", "casing": "turned to a casing"}


def find(bench: Bench) -> Iterator[Found]:
    if not bench.of(*TURNED):
        return
    early: dict[Act, tuple[Seam, list[Edge]]] = {}
    for seam in bench.seams:
        by_side = [[hem for edge in layer.edges for hem in _hemmed_neighbours(edge, seam)] for layer in seam.layers]
        if sum(bool(hems) for hems in by_side) > 1:
            for hem in dict.fromkeys(hem for hems in by_side for hem in hems):
                assert hem.closed is not None
                first, edges = early.setdefault(hem.closed, (seam, []))
                if first is seam:
                    edges.append(hem)
    for act, (seam, edges) in early.items():
        if not told(bench, act.step, seam.act.step):
            yield _found(act, seam, edges)


def _hemmed_neighbours(edge: Edge, seam: Seam) -> list[Edge]:
    """The edges at its corners that were hemmed before the seam was sewn."""
    if is_inner(edge.cut.called):
        return []
    return [
        near
        for near in edge.neighbours
        if near.closed
        and near.closed.name in TURNED
        and near.closed.time < seam.act.time
        and not is_opening(near.spec.name)
    ]


def _found(act: Act, seam: Seam, edges: list[Edge]) -> Found:
    are, them = ("are", "them") if len(edges) > 1 else ("is", "it")
    there = "later in this step" if seam.act.step is act.step else f"only later, in {seam.act.step.called}"
    return Found(
        place_of(act, edges[0]),
        act.step,
        f"{listed(edge.called for edge in edges)} {are} {TURNED[act.name]} too early: {seam_said(seam)} runs into "
        f"{them}, and is sewn {there}.",
        put_after(f"the {act.name}", seam.act.step, act.step),
        (Related("The seam is sewn here", seam.act.place),),
        move=movable(act.step, seam.act.step),
        late=seam.act.step,
    )
