"""Questions that several rules put to the record of a bench."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.finding import Place
    from booklet.model.pattern import EdgeName, Step
    from booklet.sew.bench import Act, Bench, CutPiece, Edge, Missing

# Which operations take in cloth along lines of a piece?
DARTS = ("dart", "pleat", "tuck")
# Which operations join or close an edge for good, as a hem or a finish does not?
SEWN = frozenset({"sew", "pocket", "close", "zipper"})


def where(there: Step, here: Step) -> str:
    """`in step 4, “Join the shoulders”`, or `in this step`."""
    return "in this step" if there is here else f"in {there.called}"


def put_before(what: str, there: Step, here: Step) -> str:
    """A mend in words: `Put the dart before step 4, “Join the sides”.`"""
    return f"Put {what} earlier in this step." if there is here else f"Put {what} before {there.called}."


def put_after(what: str, there: Step, here: Step) -> str:
    return f"Put {what} later in this step." if there is here else f"Put {what} after {there.called}."


def movable(here: Step, there: Step) -> Step | None:
    """The step to move for the sake of another; None where both faults lie in one step, which no move mends."""
    return None if there is here else here


def name_of(act: Act, edge: Edge) -> EdgeName | None:
    """The name in the entry that means this edge: by its piece where it is named so, else through a part."""
    wanted = same_name(edge.spec.name)
    named = [name for name in act.entry.things if name.edge == wanted]
    own = [name for name in named if name.part == same_name(edge.cut.called)]
    return next(iter(own or named), None)


def written(act: Act, edge: Edge) -> str:
    """The edge as the entry names it: `body.side`."""
    name = name_of(act, edge)
    return name.written if name else edge.called


def place_of(act: Act, edge: Edge) -> Place:
    name = name_of(act, edge)
    return name.place if name else act.place


def closed_before(edge: Edge, time: int) -> Act | None:
    """The act that closed the edge before a time; None for one that the writer is told of elsewhere."""
    closed = edge.closed
    return closed if closed is not None and closed.time < time and not edge.excused else None


def by_step(bench: Bench) -> dict[str, list[Act]]:
    """The acts of each step that has any, by the step's id."""
    found: dict[str, list[Act]] = {}
    for act in bench.acts:
        found.setdefault(act.step.id, []).append(act)
    return found


def handlings(bench: Bench, *operations: str) -> dict[CutPiece, list[Act]]:
    """By cut piece, the acts of some operations that were done to a part that holds it, in time order."""
    found: dict[CutPiece, list[Act]] = {}
    for act in bench.of(*operations):
        for cut in act.cuts:
            found.setdefault(cut, []).append(act)
    return found


def between(acts: list[Act], after: int, before: int) -> Act | None:
    """The first act between two times."""
    return next((act for act in acts if after < act.time < before), None)


def darts_across(edge: Edge) -> list[Act]:
    """The entries that sewed the darts which run into an edge."""
    crossing = [
        edge.cut.darts[name]
        for name, dart in edge.cut.piece.darts.items()
        if name in edge.cut.darts
        and any(same_name(crossed.value) == same_name(edge.spec.name) for crossed in dart.crosses)
    ]
    return [act for act in crossing if act is not None]


def once(bench: Bench, kind: str, by_part: bool = False) -> list[Missing]:
    """What was missing in one way, each name once a step; `by_part`: whatever edge of the part is named."""
    found: dict[tuple[str, str], Missing] = {}
    for missing in bench.missing:
        if missing.kind == kind:
            name = missing.written.partition(".")[0] if by_part else missing.written
            found.setdefault((missing.step.id, same_name(name)), missing)
    return list(found.values())


@lru_cache(maxsize=1)
def made_late(bench: Bench) -> dict[Step, dict[Step, list[Missing]]]:
    """By step that makes a part, the steps that use it before, each with its uses."""
    found: dict[Step, dict[Step, list[Missing]]] = {}
    for missing in bench.missing:
        if missing.kind == "made later" and missing.maker is not None:
            found.setdefault(missing.maker, {}).setdefault(missing.step, []).append(missing)
    return found


@lru_cache(maxsize=1)
def misplaced(bench: Bench) -> frozenset[Step]:
    """Steps that part-made-later tells to move: the maker, where several steps wait for it, else the user."""
    late = made_late(bench)
    return frozenset(step for maker, users in late.items() for step in ((maker,) if len(users) > 1 else users))


def told(bench: Bench, *steps: Step) -> bool:
    """Whether part-made-later has told the writer to move one of these steps: its other faults go with it."""
    return bool(bench.missing) and not misplaced(bench).isdisjoint(steps)


def sewn_shut(cut: CutPiece, act: Act) -> bool:
    """Whether a pocket was sewn down by all its edges at once. Some of them finished apart make the opening."""
    edges = [edge for edge in cut.edges.values() if not edge.spec.fold]
    finished = sum(edge.finished is not None and edge.finished.time < act.time for edge in edges)
    apart = 0 < finished < len(edges)
    return len(edges) > 1 and not apart and all(edge.closed is act for edge in edges)


def dots_of(act: Act) -> frozenset[str]:
    """The dots of an outline at which an entry puts what it makes."""
    return frozenset(same_name(dot.value) for dot in act.entry.options.get("dots", ()))
