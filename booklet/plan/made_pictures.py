"""Figures of made parts: turned right side out, closed by hand over a seam, tacked down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.flat_pictures import fused
from booklet.plan.laying import Laying, on_cloths, own_edges
from booklet.plan.picture import Meeting, StepFigure
from booklet.plan.picture_words import fits, part_of, sentence, things_of
from booklet.plan.write import capital
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.sew.bench import Act, Bench, CutPiece, Edge

# A part of more pieces than this is no longer told apart in one small figure. Our choice.
MOST_PIECES = 3


def made(bench: Bench, group: Sequence[Act], drawn: frozenset[str]) -> list[StepFigure]:
    act = group[0]
    figure = {"turn": _turned, "close": _closed, "slipstitch": _closed, "tack": _tacked}[act.name](bench, act, drawn)
    return [figure] if figure is not None else []


def _turned(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """Right side out, seen from the piece that was sewn on last: its seams lie at the edge."""
    cuts = fused(bench, act, drawn)
    if not cuts or len(cuts) > MOST_PIECES:
        return None
    laying = Laying(bench, act.time + 1, drawn)
    seams = [seam for cut in cuts for edge in cut.edges.values() for seam in edge.seams if seam.act.time < act.time]
    if not seams:
        return None
    whole = len(cuts) == 1
    if whole:
        laying.add(cuts[0], "right")
        if not laying.cloths[0].halved:
            return None
    elif not all(laying.place(list(cut.edges.values())[:1], "wrong" if cut is cuts[0] else "right") for cut in cuts):
        return None
    shown = cuts[-1]
    edges = [edge for edge in shown.edges.values() if any(seam in edge.seams for seam in seams)]
    marks = on_cloths(laying, "turned", edges)
    name = things_of([act])
    seen = "" if whole else f", seen from the {shown.called}"
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(f"{name} right side out{seen}", "the seams lie at the edge"),
        fits(f"{capital(name.removeprefix('the '))} right side out", "Right side out"),
    )


def _closed(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A folded edge laid over a seam, or a gap closed, by hand."""
    if not act.edges or not Laying(bench, act.time, drawn).can_show(act.edges):
        return None
    edge = act.edges[0]
    laying = Laying(bench, act.time, drawn)
    shown = _over_own_seam(laying, edge) or _over_other_seam(laying, edge) or _gap(laying, edge)
    by = act.entry.options.get("by")
    by_hand = act.name == "slipstitch" or (by is not None and same_name(by.value) == "hand")
    hand = " by hand" if by_hand else ""
    marks = on_cloths(laying, "close" if by_hand else "edgestitch", [shown])
    gap = shown is edge and len(laying.cloths) == 1
    names = things_of([act])
    where = "stitched shut" if gap else "lies folded over the seam, stitched"
    return StepFigure(
        tuple(laying.cloths),
        (*marks, *laying.flaps()),
        sentence(f"{'right' if gap else 'wrong'} side up: {names} {where}{hand}"),
        f"Gap closed{hand}" if gap else fits(f"Fold over the seam, stitched{hand}", f"Fold stitched{hand}", "Stitched"),
    )


def _over_own_seam(laying: Laying, edge: Edge) -> Edge | None:
    """A band folded in half: its edge comes to the seam that joins its other edge to the garment."""
    cut = edge.cut
    others = [other for other in cut.edges.values() if other is not edge and _joins(other, laying.time, cut)]
    if len(others) != 1:
        return None
    seam = next(seam for seam in others[0].seams if seam.act.time < laying.time)
    beyond = [one for one in seam.edges if one.cut is not cut]
    if not laying.can_show(beyond) or not laying.place(beyond, "wrong") or not laying.place([edge], "wrong"):
        return None
    laying.change(cut, halved=(edge.spec.name, others[0].spec.name), face="right", how="opened")
    return others[0]


def _over_other_seam(laying: Laying, edge: Edge) -> Edge | None:
    """The inner of two layers: its edge comes to the seam that joins the like edge of the outer to the garment."""
    cut = edge.cut
    mates = [
        other
        for seam in dict.fromkeys(seam for mine in cut.edges.values() for seam in mine.seams)
        for joined in dict.fromkeys(one.cut for one in seam.edges if one.cut is not cut)
        for other in joined.edges.values()
        if other.spec.name == edge.spec.name and _joins(other, laying.time, joined, cut)
    ]
    if not mates:
        return None
    mate = mates[0]
    seam = next(seam for seam in mate.seams if seam.act.time < laying.time)
    beyond = [one for one in seam.edges if one.cut not in (cut, mate.cut)]
    if not laying.can_show([*beyond, mate]) or not laying.place(beyond, "wrong") or not laying.place([mate], "wrong"):
        return None
    laying.add(cut, "right", "over", (Meeting(edge.spec.name, laying.number[mate.cut], mate.spec.name),))
    return edge


def _gap(laying: Laying, edge: Edge) -> Edge:
    laying.place([edge], "right")
    laying.change(edge.cut, turned_in=(*laying.cloths[0].turned_in, edge.spec.name))
    return edge


def _joins(edge: Edge, time: int, *without: CutPiece) -> bool:
    """Whether a seam joins it to a piece other than some."""
    return any(
        seam.act.time < time and any(one.cut not in without for one in seam.edges) and not own_edges(seam, edge.cut)
        for seam in edge.seams
    )


def _tacked(bench: Bench, act: Act, drawn: frozenset[str]) -> StepFigure | None:
    """A facing turned in, held by a few hand stitches where its edge crosses the seams."""
    to = [name for name in act.entry.options.get("to", ()) if "." in name.value]
    if to:
        return _tacked_to_edge(bench, act, to[0].value, drawn)
    cuts = fused(bench, act, drawn)
    beyond = dict.fromkeys(
        one.cut
        for cut in cuts
        for edge in cut.edges.values()
        for seam in edge.seams
        if seam.act.time < act.time
        for one in seam.edges
        if one.cut not in cuts
    )
    laying = Laying(bench, act.time, drawn)
    firsts = [next(iter(cut.edges.values())) for cut in [*beyond, *cuts]]
    if not beyond or not laying.can_show(firsts) or not laying.place(firsts, "wrong"):
        return None
    free = [edge for cut in cuts for edge in cut.edges.values() if not edge.seams and edge.closed is None]
    marks = on_cloths(laying, "tack", free)
    if not marks:
        return None
    names = part_of(act.entry.things)
    return StepFigure(
        tuple(laying.cloths),
        tuple(marks),
        sentence(f"wrong side up: {names} turned in and tacked to the seams by hand"),
        fits(f"{capital(names.removeprefix('the '))} tacked by hand", "Tacked by hand"),
    )


def _tacked_to_edge(bench: Bench, act: Act, written: str, drawn: frozenset[str]) -> StepFigure | None:
    """A few stitches at both ends of an edge, right side up."""
    name = edge_name_of(written)
    part = bench.parts.get(name[0])
    edges = [cut.edges[name[1]] for cut in (part.cuts if part is not None else []) if name[1] in cut.edges]
    laying = Laying(bench, act.time, drawn)
    if not edges or not laying.can_show(edges) or not laying.place(edges[:1], "right"):
        return None
    names = part_of(act.entry.things)
    return StepFigure(
        tuple(laying.cloths),
        tuple(on_cloths(laying, "tack", edges[:1])),
        sentence(f"right side up: {names} held at both ends of {edges[0].said} by a few stitches through all layers"),
        fits(f"Both ends of the {edges[0].spec.name.lower()} tacked", "Both ends tacked"),
    )


def edge_name_of(written: str) -> tuple[str, str]:
    part, _, edge = written.partition(".")
    return same_name(part), same_name(edge)
