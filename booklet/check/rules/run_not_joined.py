"""Edges of several pieces are sewn in one row before the pieces are joined.

What it finds: a side of `sew` that names edges of two pieces or more, such as the sides of body and sleeve, before the
seam that joins these pieces at the corner between them. And an edge of two halves, such as the waist of a left and a
right back, that is sewn to one piece running over both before the halves are joined.

Why it matters at the machine: the row would run over a gap. Where the later seam arrives, its ends are already caught.

Wrong:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}

Right:
    steps:
      - {id: shoulders, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}, {press: open}]}
      - {id: facing, title: Face the neck, work: [{sew: [[front.neckline, back.neckline], neck facing.neckline]}]}

Source: common practice, no source: a seam that runs over two pieces waits for the seam between them.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_after, told
from booklet.check.corners import Corner, corners
from booklet.check.found import Found
from booklet.check.loose import is_raw
from booklet.check.meant import is_doubled
from booklet.check.numbers import seam_said
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Bench, Edge, Layer, Seam

LEVEL = "error"


def find(bench: Bench) -> Iterator[Found]:
    for seam in bench.seams:
        for layer in seam.layers:
            late = _pieces_joined_later(layer, seam) or _halves_joined_later(layer, seam)
            if late is not None and not told(bench, seam.act.step, late.seam.act.step):
                yield _found(seam, late)
                break


def _halves_joined_later(layer: Layer, seam: Seam) -> Corner | None:
    """The first seam after this one that joins an edge's two copies, over which one piece of the other side runs."""
    others = [edge for other in seam.layers if other is not layer for edge in other.edges]
    for corner in corners(layer.edges):
        if corner.seam.act.time < seam.act.time or len(corner.ends) != 1 or _copies(corner.ends[0]) != 2:
            continue
        if is_doubled(corner.ends[0].cut.called):  # its other copy lies behind it, and not beside it
            continue
        called = [edge for edge in others if edge.spec.name == corner.ends[0].spec.name]
        over = called or (others if len(others) == 1 else [])
        mine = [edge for edge in layer.edges if not called or edge.spec.name == corner.ends[0].spec.name]
        if over and any(_copies(edge) == 1 for edge in over) and sum(map(_copies, over)) < sum(map(_copies, mine)):
            return corner
    return None


def _pieces_joined_later(layer: Layer, seam: Seam) -> Corner | None:
    """The first seam after this one that joins two pieces of the row which nothing in the row has joined before."""
    if len(layer.edges) < 2 or all(edge.cut is layer.edges[0].cut for edge in layer.edges):
        return None
    if any(_each_to_its_own(layer, other) for other in seam.layers):
        return None
    of: dict[Edge, Edge] = {edge: edge for edge in layer.edges}

    def root(edge: Edge) -> Edge:
        while of[edge] is not edge:
            edge = of[edge]
        return edge

    first: dict[object, Edge] = {}
    for edge in layer.edges:
        of[root(edge)] = root(first.setdefault(edge.cut, edge))
    for corner in corners(layer.edges):
        if any(_twice(edge, corner) for edge in corner.ends) or _seam_missing(corner):
            continue
        roots = dict.fromkeys(root(edge) for edge in corner.ends)
        if corner.seam.act.time > seam.act.time and len(roots) > 1:
            return corner
        head, *rest = roots
        for other in rest:
            of[other] = head
    return None


def _seam_missing(corner: Corner) -> bool:
    """Whether edges of one name stay raw beside the row on two pieces: the seam that is missing would join them."""
    raw = [(near.spec.name, edge.cut) for edge in corner.ends for near in edge.neighbours if is_raw(near)]
    return any(name == other and cut is not another for name, cut in raw for other, another in raw)


def _each_to_its_own(layer: Layer, other: Layer) -> bool:
    """Whether the other side has as many edges, in all its copies, as this one: four pocket bags to four openings."""
    return len(other.edges) < len(layer.edges) and sum(map(_copies, other.edges)) == sum(map(_copies, layer.edges))


def _copies(edge: Edge) -> int:
    """How many edges of that name are cut. One that ends at a fold lies on both halves, as one."""
    cut = edge.cut
    unfolds = any(each.on_fold and same_name(each.material.value) == cut.material for each in cut.piece.cuts)
    return cut.number * (2 if unfolds and not any(near.spec.fold for near in edge.neighbours) else 1)


def _twice(edge: Edge, corner: Corner) -> bool:
    """Whether the seam meets both ends of an edge: the edges lie opposite each other, as at a pocket in a side seam."""
    return sum(near in corner.seam.edges for near in edge.neighbours) > 1


def _found(seam: Seam, late: Corner) -> Found:
    step, there = seam.act.step, late.seam.act.step
    cuts = listed(dict.fromkeys(edge.cut.called for edge in late.ends))
    joined = f"{cuts} are joined" if len(late.ends) > 1 else "its two halves are joined"
    when = "later in this step" if there is step else f"only later, in {there.called}"
    return Found(
        seam.act.place,
        step,
        f"{listed(edge.called for edge in late.ends)} can't be sewn in one row yet: {joined} {when}.",
        put_after("this seam", there, step),
        (Related(f"{seam_said(late.seam)[0].upper()}{seam_said(late.seam)[1:]} is sewn here", late.seam.act.place),),
        move=movable(step, there),
        late=there,
    )
