"""A place is marked after it was sewn by.

What it finds: `mark` on a dart, pleat or tuck that an earlier entry has sewn; on an edge that was closed before, or on
a vent or slit at which an earlier seam ends; and the first `mark` of a piece after something was sewn to its dots.

Why it matters at the machine: the mark is what the sewer folds and stitches by; afterwards it is of no use.

Wrong:
    steps:
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}
      - {id: mark, title: Mark the darts, work: [{mark: front.bust dart}]}

Right:
    steps:
      - {id: mark, title: Mark the darts, work: [{mark: front.bust dart}]}
      - {id: darts, title: Sew the darts, work: [{dart: front.bust dart}]}

Source: common practice, no source: marks are transferred to the cut piece before it is sewn.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import dots_of, movable, put_before, told, where
from booklet.check.found import Found
from booklet.check.meant import is_opening
from booklet.finding import Related
from booklet.model.pattern import EdgeName
from booklet.read.tree import same_name
from booklet.sew.bench import Act, Bench, CutPiece, Edge, Seam

LEVEL = "warning"
Late = tuple[Act, str, str]


def find(bench: Bench) -> Iterator[Found]:
    marked: set[CutPiece] = set()
    for act in bench.of("mark"):
        late = [_dart_late(act, name) or _edge_late(act, name) for name in act.entry.things if name.edge]
        late += [_dots_late(bench, act, cut) for cut in act.cuts if cut not in marked and not _by_edge(act, cut)]
        marked.update(cut for cut in act.cuts if not _by_edge(act, cut))
        first = min((each for each in late if each is not None), key=lambda each: each[0].time, default=None)
        if first is not None and not told(bench, act.step, first[0].step):
            sewn, what, done = first
            yield Found(
                act.place,
                act.step,
                f"{what} marked too late: {done} before, {where(sewn.step, act.step)}.",
                put_before("the marking", sewn.step, act.step),
                (Related("It is sewn here", sewn.place),),
                move=movable(act.step, sewn.step),
            )


def _dart_late(act: Act, name: EdgeName) -> Late | None:
    for cut in act.cuts:
        sewn = cut.darts.get(name.edge)
        if sewn is not None and sewn.time < act.time:
            return sewn, f"The {cut.piece.darts[name.edge].name} is", "it was sewn"
    return None


def _edge_late(act: Act, name: EdgeName) -> Late | None:
    for edge in act.edges:
        if same_name(edge.spec.name) != name.edge or edge.excused:
            continue
        flanks = edge.neighbours if is_opening(name.edge) else ()
        seams = [seam.act for each in (edge, *flanks) for seam in each.seams if each is edge or _ends_at(seam, edge)]
        done = [each for each in (*seams, edge.closed) if each is not None and each.time < act.time]
        if done:
            sewn = min(done, key=lambda each: each.time)
            says = "the edge was closed" if sewn is edge.closed else "the seam that ends at it was sewn"
            return sewn, f"{name.written} is", says
    return None


def _ends_at(seam: Seam, opening: Edge) -> bool:
    """Whether a seam ends at an opening, which is left on both its sides."""
    return all(
        any(is_opening(near.spec.name) for edge in layer.edges for near in edge.neighbours) for layer in seam.layers
    )


def _dots_late(bench: Bench, act: Act, cut: CutPiece) -> Late | None:
    """What was sewn to the dots of a piece before they were marked."""
    for pocket in bench.of("pocket", "buttonhole"):
        if pocket.time > act.time or not dots_of(pocket):
            continue
        bases = pocket.parts[-1].cuts if pocket.name == "pocket" and pocket.parts else []
        if cut in bases or any(edge.cut is cut for edge in pocket.edges if pocket.name == "buttonhole"):
            return pocket, f"{cut.called} is", "what its dots are for was sewn"
    return None


def _by_edge(act: Act, cut: CutPiece) -> bool:
    """Whether the entry marks only an edge or a dart of the piece."""
    return not any(not name.edge and same_name(name.part) == same_name(cut.called) for name in act.entry.things)
