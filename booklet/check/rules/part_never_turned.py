"""A part is sewn right sides together and never turned right side out.

What it finds: a cuff, collar, band, strap or the like whose end is sewn across its fold, whose corner is sewn, or
which is sewn to a narrow tube, and no `turn` after that; and a turning gap that is closed with nothing turned before.
Only pieces named so are looked at: a sleeve or a skirt is a tube as well, and is sewn on as it lies.

Why it matters at the machine: the part stays wrong side out, with its allowances showing.

Wrong:
    steps:
      - id: collar
        title: Make the collar
        work: [{sew: [[collar.ends, collar.outer], [collar.ends, collar.outer]]}, {trim: 1/4 in}, {press part: collar}]

Right:
    steps:
      - id: collar
        title: Make the collar
        work: [{sew: [[collar.ends, collar.outer], [collar.ends, collar.outer]]}, {trim: 1/4 in}, {turn: collar},
           {press part: collar}]

Source: published: Goodheart-Willcox (2012), p. 453: stitch, trim, clip, press, understitch, turn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.check.inside_out import shape
from booklet.check.meant import is_gap, is_turned
from booklet.check.turned import too_early
from booklet.finding import Related
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

LEVEL = "error"
HOW = {
    "end": "its end is sewn across the fold, right sides together",
    "corner": "it is sewn round a corner, right sides together",
    "tube": "it is sewn to a tube, right sides together",
}
CLOSES = ("close", "slipstitch")


def find(bench: Bench) -> Iterator[Found]:
    turns = bench.of("turn")
    if any(act.broken for act in turns):
        return
    # What is turned too early is told so.
    said: set[CutPiece] = {cut for act in too_early(bench) for cut in act.cuts}
    for seam in bench.seams:
        how = shape(seam)
        cuts = {edge.cut for edge in seam.edges}
        if not how or cuts & said or any(cut.trusted for cut in cuts) or told(bench, seam.act.step):
            continue
        if not any(_turns(act, seam, cuts) for act in turns):
            said |= cuts
            yield _found(seam, how)
    yield from _gaps(bench, turns)


def _turns(act: Act, seam: Seam, cuts: set[CutPiece]) -> bool:
    """Whether it turned this part. What was sewn by itself is turned by itself, before the garment is."""
    if act.time < seam.act.time or cuts.isdisjoint(act.cuts):
        return False
    return not _by_itself(seam, cuts) or all(cut in cuts or is_turned(cut.called) for cut in act.cuts)


def _by_itself(seam: Seam, cuts: set[CutPiece]) -> bool:
    """Whether its pieces hung together with no others when the seam was sewn."""
    earlier = (
        other for cut in cuts for edge in cut.edges.values() for other in (*edge.seams, *edge.basted)
        if other.act.time < seam.act.time
    )  # fmt: skip
    return all(edge.cut in cuts or is_turned(edge.cut.called) for other in earlier for edge in other.edges)


def _found(seam: Seam, how: str) -> Found:
    act = seam.act
    cut = next(edge.cut for edge in seam.edges if is_turned(edge.cut.called))
    return Found(
        act.place,
        act.step,
        f"{cut.called} is never turned right side out: {HOW[how]}, and no entry turns it after that.",
        f"Add “turn: {cut.called}” after this seam, when it is trimmed and pressed.",
    )


def _gaps(bench: Bench, turns: list[Act]) -> Iterator[Found]:
    for act in bench.of(*CLOSES):
        edge = next((edge for edge in act.edges if is_gap(edge.name)), None)
        if edge is None or act.broken or edge.cut.trusted or told(bench, act.step):
            continue
        if not any(_passed(turn, act, edge) for turn in turns) and not _threaded(bench, edge):
            later = next((turn for turn in turns if turn.time > act.time), None)
            yield Found(
                act.place,
                act.step,
                f"{edge.called} is closed, and nothing was turned through it before.",
                f"Add “turn:” with “through: {edge.called}” before this entry.",
                (Related("It is turned here", later.place),) if later else (),
            )


def _passed(turn: Act, act: Act, edge: Edge) -> bool:
    """Whether what hangs together with the gap was turned before it was closed; a collar in it is turned for itself."""
    if turn.time > act.time:
        return False
    groups = {cut.group for cut in turn.cuts if not is_turned(cut.called)}
    return edge.cut in turn.cuts or edge.cut.group in groups


def _threaded(bench: Bench, edge: Edge) -> bool:
    """A gap in a casing is there for the elastic."""
    return any(other.cut is edge.cut for act in bench.of("casing", "insert") for other in act.edges)
