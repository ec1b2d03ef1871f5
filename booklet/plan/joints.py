"""One view's sewing as lanes: which cut pieces come together in which step."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.model.work import edge_name
from booklet.plan.flow import Joint, Lane
from booklet.plan.laying import cloth_of
from booklet.plan.write import one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from booklet.model.pattern import Step
    from booklet.sew.bench import Act, Bench, CutPiece


class _Growing:
    """A lane while it grows. cuts: all that hangs on it by now."""

    def __init__(self, cut: CutPiece, rank: int) -> None:
        self.cuts = [cut]
        self.rank = rank
        self.name = cut.called
        self.joints: list[Joint] = []
        self.fused: list[int] = []

    def lane(self, bench: Bench) -> Lane:
        cut, fused = self.cuts[0], tuple(dict.fromkeys(self.fused))
        key, piece = same_name(cut.called), same_name(cut.piece.name)
        cloth, views = cloth_of(bench, cut), (bench.view.letter,)
        return Lane(key, piece, one_line(cut.called), cloth, views, tuple(self.joints), fused)


def lanes_of(bench: Bench, ranks: Mapping[str, int]) -> list[Lane]:
    """What is left at the end, each with all that flows into it. Interfacing is no lane: it is fused to its piece.

    ranks: by the key of a cut piece; of those that meet, the lowest goes on and the others end in it.
    """
    fused = {other for act in bench.of("fuse") for _, other in _layers(bench, act)}
    lanes = {cut: _Growing(cut, ranks[key]) for key, cut in bench.cuts.items() if cut not in fused}
    acts: dict[Step, list[Act]] = {}
    for act in bench.acts:
        acts.setdefault(act.step, []).append(act)
    for step in bench.steps:
        _take_step(bench, step, acts.get(step, []), lanes)
    ends = sorted(dict.fromkeys(lanes.values()), key=lambda lane: lane.rank)
    return [lane.lane(bench) for lane in ends]


def _take_step(bench: Bench, step: Step, acts: list[Act], lanes: dict[CutPiece, _Growing]) -> None:
    here = ((step.number, (bench.view.letter,)),)
    for act in acts:
        for base, _ in _layers(bench, act) if act.name == "fuse" else ():
            lanes[base].fused.append(step.number)
    links = [link for act in acts for link in _links(bench, act)]
    worked = [cut for act in acts for cut in (*(edge.cut for edge in act.edges), *act.cuts)]
    if step.makes is not None:
        used = (bench.parts.get(same_name(use.value)) for use in step.uses)
        worked += [part.first for part in used if part is not None and part.first is not None]
        links.append(worked)
    joined = set()
    for meeting in _together(links, lanes):
        first, *others = sorted(meeting, key=lambda lane: lane.rank)
        joined.add(first)
        first.joints.append(Joint(here, tuple(lane.lane(bench) for lane in others)))
        for lane in others:
            first.cuts += lane.cuts
            lanes.update(dict.fromkeys(lane.cuts, first))
    if step.makes is None or not (made := [lanes[cut] for cut in worked if cut in lanes]):
        return
    lane, name = made[0], one_line(step.makes.value)
    if same_name(lane.name) != same_name(name):
        lane.name = name
        if lane in joined:
            lane.joints[-1] = lane.joints[-1]._replace(makes=name)
        else:
            lane.joints.append(Joint(here, (), name))


def _together(links: Iterable[Iterable[CutPiece]], lanes: Mapping[CutPiece, _Growing]) -> list[list[_Growing]]:
    """Lanes that one step brings together, however many of its acts it takes; in the order of the acts."""
    found: list[dict[_Growing, None]] = []
    for link in links:
        mine = dict.fromkeys(lanes[cut] for cut in link if cut in lanes)
        apart = []
        for meeting in found:
            if meeting.keys() & mine.keys():
                mine = {**meeting, **mine}
            else:
                apart.append(meeting)
        found = [*apart, mine]
    return [list(meeting) for meeting in found if len(meeting) > 1]


def _links(bench: Bench, act: Act) -> Iterator[list[CutPiece]]:
    """Cut pieces that hang together by an act. It follows what sew/ merges; a test holds it to that."""
    word = act.entry.operation.bench
    edged = list(dict.fromkeys(edge.cut for edge in act.edges))
    if word in ("join", "zipper") or (word == "baste" and act.entry.sides):
        yield edged
    if act.taken:
        worked = [*edged, *(cut for cut in act.cuts if cut not in act.taken)]
        yield [*worked[:1], *act.taken]
    if word == "fuse":
        yield from ([base, other] for base, other in _layers(bench, act))
    if word == "pocket" and act.parts and "on" in act.entry.options and act.parts[-1].first is not None:
        yield [*act.cuts, act.parts[-1].first]
    if word == "tack" and act.cuts:
        names = [edge_name(name).part for name in act.entry.options.get("to", ())]
        parts = [bench.parts[name] for name in names if name in bench.parts]
        yield [act.cuts[0], *(part.first for part in parts if part.first is not None)]


def _layers(bench: Bench, act: Act) -> Iterator[tuple[CutPiece, CutPiece]]:
    """Each piece that is fused or underlined, with its second layer."""
    for cut in act.cuts:
        if cut.called != cut.piece.name and act.entry.operation.bench == "fuse":
            yield bench.cuts[same_name(cut.piece.name)], cut
