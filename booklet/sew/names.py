"""Names to things: which part, which edges, which dart a step speaks of at this time on this bench."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.sew.bench import LEFT, RIGHT, Bench, CutPiece, Edge, Missing, Part

if TYPE_CHECKING:
    from booklet.model.pattern import EdgeName, Entry, Step
    from booklet.read.tree import Text

# Operations that lay a second layer on a piece.
LAYERS = frozenset({"fuse", "underline"})


def part_named(bench: Bench, name: str, written: str, place: object, step: Step, entry: Entry | None) -> Part | None:
    """The part of that name, or None after recording why it is not to be had.

    A part that a later step makes is lent with the pieces that it will have, so that one misplaced step does not
    spoil the rest of the record.
    """
    part = bench.parts.get(name)
    if part is not None:
        return part
    copy, both = copy_of(bench, name)
    if copy:
        return part_named(bench, both, written.strip()[len(copy) :].strip(), place, step, entry)
    missing = Missing("unknown part", step, written, place, entry, time=len(bench.acts))  # type: ignore[arg-type]
    bench.missing.append(missing)
    makers = bench.makers.get(name)
    if makers:
        missing.kind, missing.maker, missing.part = "made later", _maker(makers, name, step), _lent(bench, name)
        return missing.part
    piece = bench.pattern.pieces.get(name.partition(" in ")[0])
    elsewhere = bench.made_anywhere.get(name)
    if elsewhere:
        missing.kind, missing.maker = "not made", elsewhere[0]
    elif piece is not None and bench.view.letter not in piece.scope.views:
        missing.kind = "not cut"
    else:
        missing.known = bench.part_names
    return None


def _maker(makers: list[Step], name: str, here: Step) -> Step:
    """The step that makes a part out of others: the first that does not itself work on the part that it makes."""
    fresh = (step for step in makers if step is not here and name not in _named_in(step))
    return next(fresh, makers[0])


def _named_in(step: Step) -> list[str]:
    named = [same_name(use.value) for use in step.uses]
    return named + [thing.part for entry in step.work for thing in entry.things]


def copy_of(bench: Bench, name: str) -> tuple[str, str]:
    """`left front` -> left, front. The copy is "" where a part is called so itself, or has no left and right."""
    copy, _, both = name.partition(" ")
    if copy not in (LEFT, RIGHT) or name in bench.parts or name in bench.makers:
        return "", name
    part = bench.parts.get(both)
    known = any(cut.paired for cut in part.cuts) if part else both in bench.makers or both in bench.pattern.pieces
    return (copy, both) if known else ("", name)


def _lent(bench: Bench, name: str) -> Part:
    """A stand-in for a part that is made later: it speaks for the cut pieces that will be in it.

    What hangs together with one of them by now will be in it too.
    """
    groups = dict.fromkeys(cut.group for cut in _eventual_cuts(bench, name, set()))
    return LentPart(name, name, [cut for group in groups for cut in group.cuts])


class LentPart(Part):
    """A part that is not there yet; its cut pieces may hang together or not."""

    def __init__(self, name: str, called: str, cuts: list[CutPiece]) -> None:
        super().__init__(name, called, None, 0)
        self._cuts = cuts

    @property
    def cuts(self) -> list[CutPiece]:
        return self._cuts

    def holds(self, cut: CutPiece) -> bool:
        return cut in self._cuts


def _eventual_cuts(bench: Bench, name: str, seen: set[str]) -> list[CutPiece]:
    """The cut pieces that the makers of a part name, through the parts that they name in turn."""
    if name in seen:
        return []
    seen.add(name)
    found: dict[CutPiece, None] = {}
    if name in bench.cuts:
        found[bench.cuts[name]] = None
    for step in bench.makers.get(name, []):
        for other in dict.fromkeys(_named_in(step)):
            found.update(dict.fromkeys(_eventual_cuts(bench, copy_of(bench, other)[1], seen)))
    return list(found)


def edges_named(bench: Bench, name: EdgeName, step: Step, entry: Entry, closing: bool) -> list[Edge]:
    """The edges that `part.edge` means now; empty after recording why there are none.

    An operation that closes takes the still-open ones; any other takes those too, or where none is open, all of them.
    """
    part = part_named(bench, name.part, name.written, name.place, step, entry)
    if part is None:
        return []
    copy, _ = copy_of(bench, name.part)
    for cut in part.cuts if copy else ():
        if name.edge in cut.edges:
            cut.split(name.edge)
    still_open = _of_copy(_open_edges_of(part, name.edge), copy)
    if still_open:
        return still_open
    edges = _of_copy(_edges_of(part, name.edge), copy)
    if not edges and part.first is not None and part.made is not None:
        still_open = part.first.group.open_edges(name.edge)[:]
        if still_open:
            return still_open
    if not edges:
        known = tuple(dict.fromkeys(edge.spec.name for cut in part.cuts for edge in cut.edges.values()))
        bench.missing.append(
            Missing("unknown edge", step, name.written, name.place, entry, part, known=known, time=len(bench.acts))
        )
        return []
    if closing:
        # The edges of a fused layer are closed and excused by the fusing, and say nothing of the piece's own.
        own = [edge for edge in edges if edge.closed is None or edge.closed.name not in LAYERS] or edges
        if not any(edge.excused for edge in own):
            bench.missing.append(
                Missing("already closed", step, name.written, name.place, entry, part, own[0], time=len(bench.acts))
            )
        return []
    return edges


def excuse_meant(bench: Bench, name: EdgeName, entry: Entry) -> None:
    """A name that was misspelt, or taken for another, leaves the edges that it meant open: one slip, told once."""
    missing = bench.missing[-1]
    if missing.kind == "unknown part":
        near = nearest(name.part, bench.parts)
        cuts = bench.parts[near].cuts if near else list(bench.cuts.values())
        edges = [cut.edges[name.edge] for cut in cuts if name.edge in cut.edges]
    elif missing.kind == "unknown edge" and isinstance(missing.part, LentPart):
        # None of the pieces that its makers name has it: what first makes the part is lost, and may be of any pieces.
        named = {thing.part for side in entry.sides for thing in side}
        cuts = [cut for called, cut in bench.cuts.items() if called not in named]
        edges = [cut.edges[name.edge] for cut in cuts if name.edge in cut.edges]
        missing.meant = tuple(edges)
    elif missing.kind == "unknown edge" and missing.part is not None:
        edges = [edge for cut in missing.part.cuts for edge in cut.edges.values()]
        near = nearest(name.edge, dict.fromkeys(edge.name for edge in edges))
        edges = [edge for edge in edges if near is None or edge.name == near]
    elif missing.kind == "already closed" and missing.edge is not None and entry.name == "sew":
        edges = [edge for edge in missing.edge.cut.edges.values() if edge.closed is None]
        words = set(name.edge.split())
        edges = [edge for edge in edges if not words.isdisjoint(edge.name.split())]
    else:
        return
    for edge in edges:
        edge.excused = edge.excused or edge.closed is None


def _open_edges_of(part: Part, edge_name: str) -> list[Edge]:
    """By way of the part's pieces or of its group's open edges, whichever are fewer."""
    if part.first is not None:
        candidates = part.first.group.open_edges(edge_name)
        if len(candidates) < part.size:
            return [edge for edge in candidates if part.holds(edge.cut)]
    return [edge for edge in _edges_of(part, edge_name) if edge.closed is None]


def _edges_of(part: Part, edge_name: str) -> list[Edge]:
    return [edge for cut in part.cuts if edge_name in cut.edges for edge in cut.copies(edge_name)]


def _of_copy(edges: list[Edge], copy: str) -> list[Edge]:
    return [edge for edge in edges if edge.copy in ("", copy)] if copy else edges


def dart_named(bench: Bench, name: EdgeName, step: Step, entry: Entry) -> list[tuple[CutPiece, str]]:
    """The darts of that name, or for `pleat` and `tuck` the pleats and tucks, with the pieces that have them.

    Of a piece in several materials the first is meant, unless the writer names another: `front in lining.waist dart`.
    """
    part = part_named(bench, name.part, name.written, name.place, step, entry)
    if part is None:
        return []
    kind = entry.name
    found = [
        (cut, name.edge)
        for cut in part.cuts
        if name.edge in cut.darts
        and cut.piece.darts[name.edge].kind == kind
        and (cut.called == cut.piece.name or same_name(cut.called) == name.part)
    ]
    if not found:
        darts = [dart for cut in part.cuts for dart in cut.piece.darts.values()]
        known = tuple(dict.fromkeys(dart.name for dart in darts if dart.kind == kind))
        bench.missing.append(
            Missing("unknown dart", step, name.written, name.place, entry, part, known=known, time=len(bench.acts))
        )
    return found


def used_part(bench: Bench, use: Text, step: Step) -> Part | None:
    """A part that `uses` names; recorded when it has already gone into another."""
    part = part_named(bench, same_name(use.value), use.value, use.place, step, None)
    if part is not None and part.gone is not None:
        bench.missing.append(Missing("already gone", step, use.value, use.place, None, part, time=len(bench.acts)))
    return part
