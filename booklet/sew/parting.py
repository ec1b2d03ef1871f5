"""Operations on parts: fuse, dart, turn, tack, pockets, what is marked or tried on, what goes into a casing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.craft.load import table
from booklet.model.work import edge_name
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, CutPiece, Missing, merge
from booklet.sew.hands import close_edge, cuts_of, edge_text, place_in
from booklet.sew.names import copy_of, dart_named, edges_named, part_named
from booklet.sew.taking import has_line, on_line

if TYPE_CHECKING:
    from booklet.sew.bench import Edge, Part


def part(bench: Bench, act: Act) -> None:
    act.cuts = cuts_of(bench, act, act.entry.things)
    if act.name == "turn":
        bench.last_work = act
    through: Text | None = act.entry.options.get("through")
    if through is not None and "." in through.value:
        act.edges += edges_named(bench, edge_name(through), act.step, act.entry, closing=False)


def tack(bench: Bench, act: Act) -> None:
    """Hand stitches hold too: what is tacked to a part hangs together with it. `sides` keeps the edges of that part."""
    part(bench, act)
    for name in act.entry.options.get("to", ()):
        if same_name(name.value) in bench.named_seams:
            continue
        named = edge_name(name)
        to = part_named(bench, named.part, name.value, name.place, act.step, act.entry)
        if to is not None and named.edge:
            act.sides.append(edges_named(bench, named, act.step, act.entry, closing=False))
        if to is not None and to.cuts and act.cuts:
            merge(to.cuts[0].group, act.cuts[0].group)


def touch_things(bench: Bench, act: Act) -> None:
    for name in act.entry.things:
        part = bench.parts.get(copy_of(bench, name.part)[1]) if name.edge else None
        marked = [cut for cut in part.cuts if name.edge in cut.darts or has_line(cut, name.edge)] if part else []
        act.cuts += marked or cuts_of(bench, act, (name,))


def fuse(bench: Bench, act: Act) -> None:
    """Fuse and underline: a second layer, of which nothing is spoken any more."""
    act.cuts = cuts_of(bench, act, act.entry.things)
    wanted: Text | None = act.entry.options.get("with")
    for cut in list(act.cuts):
        fused = _layers(bench, cut, same_name(wanted.value) if wanted else "", act.name == "fuse")
        for other in fused:
            if other.part.gone is not None:
                place = place_in(act, cut)
                bench.missing.append(
                    Missing("already gone", act.step, other.called, place, act.entry, other.part, time=act.time)
                )
            merge(cut.group, other.group)
            other.part.gone = other.part.gone or act.step
            other.part.gone_into = cut.called
            act.cuts.append(other)
            for edge in other.edges.values():
                edge.closed = edge.closed or act
                edge.excused = True
        if fused and act.name == "fuse":
            cut.fused = cut.fused or act


def _layers(bench: Bench, cut: CutPiece, wanted: str, interfacing: bool) -> list[CutPiece]:
    """The same piece in the material wanted; with none named, in interfacing, or in any other cloth."""
    if cut.called != cut.piece.name:
        return []
    found = []
    for other in cut.piece.cuts[1:]:
        key = same_name(other.material.value)
        material = bench.pattern.materials.get(key)
        is_meant = material is not None and (material.kind == "interfacing") == interfacing
        name = same_name(f"{cut.piece.name} in {key}")
        if name in bench.cuts and (key == wanted if wanted else is_meant):
            found.append(bench.cuts[name])
    return found


def dart(bench: Bench, act: Act) -> None:
    for name in act.entry.things:
        act.darts += dart_named(bench, name, act.step, act.entry)
    for cut, dart in act.darts:
        cut.darts[dart] = cut.darts[dart] or act
        act.cuts.append(cut)
    bench.last_work = act


def pocket(bench: Bench, act: Act) -> None:
    act.cuts = cuts_of(bench, act, act.entry.things)
    on: Text | None = act.entry.options.get("on")
    kind: Text | None = act.entry.options.get("kind")
    let_in = kind is not None and "line" in table("pockets")[kind.value]
    for cut in list(act.cuts):
        for edge in cut.edges.values():
            if edge.closed is not None or edge.spec.fold or _waits(edge):
                continue
            if let_in:
                edge.finished = edge.finished or act
            else:
                act.edges.append(edge)
    _tell_twice(bench, act)
    for edge in act.edges:
        close_edge(edge, act)
    base = _base(bench, act, on) if on else None
    if base is not None and base.cuts:
        act.parts.append(base)
        for cut in list(act.cuts):
            merge(cut.group, base.cuts[0].group)


def _waits(edge: Edge) -> bool:
    """Whether an edge of a pocket is basted to one of the garment that is still open: a later seam takes in both."""
    return any(other.cut is not edge.cut and other.closed is None for seam in edge.basted for other in seam.edges)


def _tell_twice(bench: Bench, act: Act) -> None:
    """Records the pockets of which an earlier entry has closed every edge: nothing of them is left to sew down."""
    for cut in act.cuts:
        edges = [edge for edge in cut.edges.values() if not edge.spec.fold]
        if edges and all(edge.closed is not None and not edge.excused for edge in edges):
            place = place_in(act, cut)
            bench.missing.append(
                Missing("already closed", act.step, cut.called, place, act.entry, cut.part, edges[0], time=act.time)
            )


def _base(bench: Bench, act: Act, on: Text) -> Part | None:
    """The part on which a pocket is sewn, or on a line of which it is let in."""
    name = edge_name(on)
    if name.edge:
        on_line(bench, act, name)
    return bench.parts.get(name.part) or part_named(bench, name.part, on.value, on.place, act.step, act.entry)


def insert(bench: Bench, act: Act) -> None:
    """Into the last casing, or into the one that `into` names."""
    into: Text | None = act.entry.options.get("into")
    casings = bench.by_name.get("casing", [])
    if into is not None and "." in into.value:
        part, _, edge = into.value.partition(".")
        edges = edges_named(
            bench, edge_text(same_name(part), same_name(edge), into), act.step, act.entry, closing=False
        )
        casings = [casing for casing in casings if set(casing.edges) & set(edges)]
        act.edges = edges
    act.target = casings[-1] if casings else None
    if act.target is not None:
        act.edges = list(act.target.edges)
