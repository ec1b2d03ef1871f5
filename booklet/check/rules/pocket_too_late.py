"""A flat pocket is sewn on when its piece is no longer flat.

What it finds: `pocket … on: PIECE` after the piece was closed into a tube: all the seams that cross its hem or waist
casing are sewn, all the way round, down to a vent at most; or into a bag, of which one edge at most is open.

Why it matters at the machine: on a flat piece the pocket lies under the needle in one layer. In a closed skirt or
trouser leg the other side is always in the way.

Wrong:
    steps:
      - {id: back, title: Sew the centre back, work: [{sew: [back.centre back, back.centre back]}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: pocket, title: Sew on the pocket, work: [{pocket: pocket, on: front}]}
      - {id: hem, title: Hem, work: [{hem: [front.hem, back.hem], turns: [1/2 in, 1/2 in]}]}

Right:
    steps:
      - {id: pocket, title: Sew on the pocket, work: [{pocket: pocket, on: front}]}
      - {id: back, title: Sew the centre back, work: [{sew: [back.centre back, back.centre back]}]}
      - {id: sides, title: Join the sides, work: [{sew: [front.side, back.side]}]}
      - {id: hem, title: Hem, work: [{hem: [front.hem, back.hem], turns: [1/2 in, 1/2 in]}]}

Source: published: an extension order of construction: pockets and plackets on flat pieces, before the side seams.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.meant import is_opening
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Edge

LEVEL = "warning"
ROUND = frozenset({"hem", "casing"})


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.of("pocket"):
        base = act.parts[-1].cuts if act.parts and not act.broken and "on" in act.entry.options else []
        if len(base) == 1:
            closing = _closing(base[0], act.time)
            if closing is not None and not told(bench, act.step, closing.step):
                yield _found(act, base[0], closing)


def _closing(cut: CutPiece, time: int) -> Act | None:
    """The seam that closed the piece into a tube before a time."""
    for edge in cut.edges.values():
        if edge.closed is not None and edge.closed.name in ROUND:
            closing = _ring(edge, time)
            if closing is not None:
                return closing
    return _bag(cut, time)


def _bag(cut: CutPiece, time: int) -> Act | None:
    """The last seam of a piece whose edges are all sewn but one."""
    edges = [edge for edge in cut.edges.values() if not edge.spec.fold]
    sewn = [seam.act for edge in edges for seam in edge.seams[:1] if seam.act.time < time]
    if len(edges) < 4 or len(sewn) < len(edges) - 1:
        return None
    return max(sewn, key=lambda act: act.time)


def _ring(start: Edge, time: int) -> Act | None:
    """The last seam of the ring of pieces along a hem, or None while the ring is open somewhere."""
    seen, todo = {start}, [start]
    last: Act | None = None
    while todo:
        edge = todo.pop()
        for flank in edge.neighbours:
            if flank.spec.fold:
                continue
            if is_opening(flank.spec.name) and not flank.seams:
                flank = next(iter(near for near in flank.neighbours if near is not edge), flank)
            seam = flank.seams[0] if flank.seams else None
            if seam is None or seam.act.time > time:
                return None
            last = seam.act if last is None or seam.act.time > last.time else last
            for other in seam.edges:
                along = [near for near in _past_openings(other) if near not in seen and _alike(near, start)]
                seen.update(along)
                todo += along
    return last


def _past_openings(edge: Edge) -> list[Edge]:
    """Its neighbours; in place of a vent, what lies beyond it."""
    found: list[Edge] = []
    for near in edge.neighbours:
        found += [far for far in near.neighbours if far is not edge] if is_opening(near.spec.name) else [near]
    return found


def _alike(edge: Edge, start: Edge) -> bool:
    """Whether it is closed in the same manner: the hem of the next piece."""
    return edge.closed is not None and start.closed is not None and edge.closed.name == start.closed.name


def _found(act: Act, cut: CutPiece, closing: Act) -> Found:
    return Found(
        act.entry.place_of("on"),
        act.step,
        f"{act.entry.things[0].written} is sewn on when {cut.called} is no longer flat: it was closed all round "
        f"{where(closing.step, act.step)}.",
        put_before("the pocket", closing.step, act.step),
        (Related("The piece is closed here", closing.place),),
        move=movable(act.step, closing.step),
    )
