"""Which sides of a seam lie on each other from end to end, and what may make one of them longer."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.check.acts import handlings
from booklet.check.meant import is_doubled
from booklet.check.numbers import limit
from booklet.check.paper.lengths import Lengths, sides_of
from booklet.check.words import listed
from booklet.craft.load import table
from booklet.read.tree import same_name
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from booklet.finding import Place
    from booklet.sew.bench import Act, Bench, CutPiece, Edge
    from booklet.shape.measure import Measures


class Pair(NamedTuple):
    """Two sides of a seam with their lengths, the longer one first (by all sizes together).

    called, places: as the entry names them; lengths: in every size, or none where they are level in all and not
    eased; eased: the act that takes in the longer one's fullness, or None; behind:
    the shorter lies behind the longer; gives: how much of the longer the shorter may be stretched by, as a share; free:
    the ends of either are finished before, so that it may be meant to reach less far, or farther.
    """

    act: Act
    longer: list[Edge]
    shorter: list[Edge]
    called: tuple[str, str]
    places: tuple[Place, Place]
    lengths: list[Lengths]
    eased: Act | None
    behind: bool = False
    gives: float = 0.0
    free: bool = False


FULLNESS = ("ease", "gather")
# Sides that differ by less are level, in mm: no rule asks more of them. Our choice.
LEVEL = 1.0


@lru_cache(4)
def pairs_of(bench: Bench, measures: Measures) -> list[Pair]:
    """Every two sides sewn together whose lengths are known, those of one side twice left out."""
    turned = handlings(bench, "turn")
    found = []
    for act in bench.of("sew"):
        if act.broken or act.seam is None or any(edge.excused for edge in act.edges):
            continue
        first = 0
        for at in range(1, len(act.sides)):
            if set(act.sides[first]) != set(act.sides[at]):
                pair = _pair(bench, measures, act, first, at, turned)
                if pair is not None:
                    found.append(pair)
    return found


def _pair(
    bench: Bench, measures: Measures, act: Act, first: int, second: int, turned: dict[CutPiece, list[Act]]
) -> Pair | None:
    longer, shorter = _uppermost(act.sides[first]), _uppermost(act.sides[second])
    lengths = sides_of(longer, shorter, bench, measures)
    if not lengths:
        return None
    if sum(row.one - row.two for row in lengths) < 0:
        first, second, longer, shorter = second, first, shorter, longer
        lengths = [Lengths(size, fitting, one, two) for size, fitting, two, one in lengths]
    names = [act.entry.sides[at] for at in (first, second)]
    called = listed(name.written for name in names[0]), listed(name.written for name in names[1])
    pair = Pair(act, longer, shorter, called, (names[0][0].place, names[1][0].place), lengths, eased(longer, act))
    if all(abs(row.one - row.two) < LEVEL for row in lengths):
        return pair if pair.eased or eased(shorter, act) else pair._replace(lengths=[])
    return pair._replace(
        behind=lies_behind(shorter) and not lies_behind(longer),
        gives=gives(shorter, longer, bench),
        free=_is_free(longer, shorter, act, turned) or _is_free(shorter, longer, act, turned),
    )


def _uppermost(side: list[Edge]) -> list[Edge]:
    """Without what is only basted onto others of the side, and lies on them."""
    mine = set(side)
    onto = [
        edge
        for edge in side
        if any(
            edge in layer.edges for each in edge.basted if mine & set(each.layers[0].edges) for layer in each.layers[1:]
        )
    ]
    return [edge for edge in side if edge not in onto] or side


def eased(edges: list[Edge], act: Act) -> Act | None:
    """The act that draws them up before they are sewn."""
    return next((done for edge in edges for done in edge.acts if done.name in FULLNESS and done.time < act.time), None)


def lies_behind(edges: list[Edge]) -> bool:
    """Whether the names of all its pieces say that they lie behind others."""
    words = frozenset(table("edges")["pieces behind"]["words"])
    return all(not words.isdisjoint(same_name(edge.cut.called).split()) for edge in edges)


def gives(edges: list[Edge], onto: list[Edge], bench: Bench) -> float:
    """Cloth that stretches is sewn to more than its own length: a knit, and what is cut on the bias."""
    shares = table("stretches")
    cloths = {edge.cut.material for edge in onto}
    return min(float(shares[_cloth(edge, cloths, bench)]["share"]) / 100 for edge in edges)


def _cloth(edge: Edge, onto: set[str], bench: Bench) -> str:
    """A row of craft/stretches.yaml. A band or cuff of the garment's own knit is stretched as one of ribbing is."""
    material = bench.pattern.materials.get(edge.cut.material)
    if material is not None and material.kind == "knit":
        return "knit on its like" if edge.cut.material in onto and not is_doubled(edge.cut.called) else "knit"
    if material is not None and material.kind == "elastic":
        return "elastic"
    return "bias" if edge.cut.piece.bias or edge.spec.bias else "woven"


def _is_free(side: list[Edge], other: list[Edge], act: Act, turned: dict[CutPiece, list[Act]]) -> bool:
    """Whether an end of it is finished apart from the other side: turned, hemmed or closed before."""
    strangers = {edge.cut for edge in other}
    ends = [near for edge in side for near in edge.neighbours if near not in side and not near.spec.fold]
    return any(_is_finished(end, strangers, act, turned) for end in ends)


def _is_finished(end: Edge, strangers: set[CutPiece], act: Act, turned: dict[CutPiece, list[Act]]) -> bool:
    closed = end.closed
    if closed is None or any(edge.cut in strangers for edge in closed.edges):
        return False
    if closed.seam is None or closed.seam.construction == "enclosed":
        return closed.seam is not None or closed.time < act.time
    return any(strangers.isdisjoint(done.cuts) for done in turned.get(end.cut, ()))


def unexplained(pair: Pair, bench: Bench) -> list[Lengths]:
    """Where the sides differ by more than a drawing does, and nothing says why.

    What is shorter in every size because it is stretched, or because its ends are finished, is meant so; where one size
    is level, the others are told.
    """
    near = float(limit("seam mismatch", bench.pattern.metric).millimetres)
    wrong = [row for row in pair.lengths if row.off > near and not _is_explained(pair, row, bench)]
    if (pair.free or pair.gives) and not any(row.off <= near for row in pair.lengths):
        return (
            [] if pair.free else [row for row in wrong if row.one - row.two > pair.gives * row.one or row.one < row.two]
        )
    if pair.gives:
        most = float(limit("unsaid ease", bench.pattern.metric).millimetres)
        return [row for row in wrong if row.off > most]
    return wrong


def _is_explained(pair: Pair, row: Lengths, bench: Bench) -> bool:
    more = row.one - row.two
    if more < 0:
        return False
    turn = float(limit("turn of cloth", bench.pattern.metric).millimetres)
    return pair.eased is not None or (pair.behind and more <= turn * (2 * len(pair.shorter) + 1))
