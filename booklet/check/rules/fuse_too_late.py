"""A piece is fused after it has been sewn to another, or turned.

What it finds: `fuse` on a piece of which an edge was sewn to another piece or to a zipper before, which was sewn on as
a patch or pocket, which has buttonholes already, or which lies in a part that was turned right side out.

Why it matters at the machine: the interfacing has to lie on the flat, single piece, out to its edges. Later the seam
is in the way, and the iron glues it to the wrong layer.

Wrong:
    steps:
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}
      - {id: fuse, title: Fuse the facing, work: [{fuse: neck facing}]}

Right:
    steps:
      - {id: fuse, title: Fuse the facing, work: [{fuse: neck facing}]}
      - {id: facing, title: Face the neck, work: [{sew: [front.neckline, neck facing.neckline]}]}

Source: published: the unit method of construction: interfacing goes on first, before the part is assembled (a
teaching page's order).
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import handlings, movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.words import listed
from booklet.finding import Related
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece

LEVEL = "error"
DONE = {
    "turn": "turned right side out",
    "buttonhole": "given its buttonholes",
    "zipper": "sewn to its zipper",
    "pocket": "sewn on",
}


def find(bench: Bench) -> Iterator[Found]:
    fused = bench.of("fuse")
    turned = handlings(bench, "turn") if fused else {}
    holes = _buttonholes(bench) if fused else {}
    for act in fused:
        late: dict[str, list[tuple[CutPiece, Act]]] = {}
        for cut in act.cuts:
            first = _sewn_before(cut, act.time) or next((t for t in turned.get(cut, ()) if t.time < act.time), None)
            first = first or next((hole for hole in holes.get(cut, ()) if hole.time < act.time), None)
            if cut.fused is act and first is not None and not told(bench, act.step, first.step):
                late.setdefault(DONE.get(first.name, "sewn to another piece"), []).append((cut, first))
        for done, found in late.items():
            yield _found(act, done, sorted(found, key=lambda each: each[1].time))


def _sewn_before(cut: CutPiece, time: int) -> Act | None:
    """What first sewed the piece to another: a seam, a zipper, or itself sewn on as a pocket."""
    seams = (seam for edge in cut.edges.values() for seam in edge.seams if seam.act.time < time)
    joined = [seam.act for seam in seams if any(edge.cut is not cut for edge in seam.edges)]
    closings = (edge.closed for edge in cut.edges.values() if edge.closed is not None and edge.closed.name in DONE)
    joined += [act for act in closings if act.time < time]
    return min(joined, key=lambda act: act.time, default=None)


def _buttonholes(bench: Bench) -> dict[CutPiece, list[Act]]:
    found: dict[CutPiece, list[Act]] = {}
    for act in bench.of("buttonhole"):
        for edge in act.edges:
            found.setdefault(edge.cut, []).append(act)
    return found


def _found(act: Act, done: str, late: list[tuple[CutPiece, Act]]) -> Found:
    """One finding for an entry. late: its pieces, each with what was done to it before, in time order."""
    cuts, first = [cut for cut, _ in late], late[0][1]
    steps = listed(dict.fromkeys(where(each.step, act.step).removeprefix("in ") for _, each in late))
    place = next((thing.place for thing in act.entry.things if same_name(cuts[0].called) == thing.part), act.place)
    are, they_were = ("are", "they were") if len(cuts) > 1 else ("is", "it was")
    return Found(
        place,
        act.step,
        f"{listed(cut.called for cut in cuts)} {are} fused too late: {they_were} {done} before, in {steps}.",
        put_before("the fusing", first.step, act.step),
        tuple(Related(f"{cut.called} is {done} here", each.place) for cut, each in late),
        move=movable(act.step, first.step),
    )
