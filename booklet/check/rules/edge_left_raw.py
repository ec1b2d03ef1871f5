"""An edge is still raw when the last step is done.

What it finds: an edge of a cut piece that no step of this view sews, hems, binds, finishes or closes. An edge on the
fold is never raw; one that a part is turned through is told of by opening-never-closed.

Why it matters at the machine: the edge frays in the wash, or a seam is missing altogether.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/2 in, 1/2 in]}]}
      - id: finish
        title: Finish the rest
        work: [{finish: [front.neckline, front.shoulder, front.armhole, front.side], how: zigzag}]

Source: published: PNW 197, Quality Standards for Sewn Items (2004): edges are finished where the cloth frays.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.loose import is_raw, loose
from booklet.check.openings import turned_through
from booklet.check.words import listed
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Group

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    alike: dict[tuple[Group, tuple[str, ...]], list[tuple[CutPiece, list[Edge]]]] = {}
    apart = loose(bench)
    for cut in bench.cuts.values():
        if cut.touched is None or cut.trusted:
            continue
        raw = [edge for edge in cut.edges.values() if is_raw(edge) and edge not in turned_through(bench)]
        if raw and apart is not None:
            raw = [edge for edge in raw if not apart.explains(edge)]
        if raw:
            names = tuple(f"{edge.copy} {edge.spec.name}" for edge in raw)
            alike.setdefault((cut.group, names), []).append((cut, raw))
    own = _sewn_to_itself(bench) if alike else {}
    for together in alike.values():
        yield _found(together, own)


def _sewn_to_itself(bench: Bench) -> dict[str, tuple[Edge, Act]]:
    """By the edge's name: where one is written on both sides of a seam, perhaps for another piece's."""
    found: dict[str, tuple[Edge, Act]] = {}
    for act in bench.of("sew"):
        for edge in act.sides[0] if len(act.sides) == 2 else ():
            if edge in act.sides[1]:
                found.setdefault(edge.spec.name, (edge, act))
    return found


def _found(together: list[tuple[CutPiece, list[Edge]]], own: dict[str, tuple[Edge, Act]]) -> Found:
    """One finding for pieces that hang together and have the same raw edges: the hem of a front and a back."""
    cut, raw = together[0]
    named = [f"“{f'{edge.copy} {edge.spec.name}'.strip()}”" for edge in raw]
    names = " and ".join([", ".join(named[:-1])] * (len(raw) > 1) + named[-1:])
    last = max((act for edge in cut.edges.values() for act in edge.acts), key=lambda act: act.time, default=None)
    step = last.step if last is not None else cut.touched
    assert step is not None
    more = "edges are" if len(raw) > 1 else "edge is"
    others = [edge for _, edges in together[1:] for edge in edges]
    mend = "Sew, hem, bind or finish it in a step of this view, or allow it with a reason."
    beside = []
    if raw[0].spec.name in own and own[raw[0].spec.name][0].cut is not cut:
        twin, act = own[raw[0].spec.name]
        mend = f"Did you mean {raw[0].called} for one of the two {twin.called} in {act.step.called}? Otherwise sew it."
        beside = [Related(f"{twin.called} is sewn to itself here", act.place)]
    return Found(
        raw[0].spec.place,
        None,
        f"The {names} {more} still raw on {listed(each.called for each, _ in together)} when the last step is done.",
        mend,
        (
            *beside,
            *(Related(f"{edge.called} is raw too", edge.spec.place) for edge in others),
            Related(f"{cut.called} is last worked in {step.called}", step.place),
        ),
    )
