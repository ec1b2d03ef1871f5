"""What every operation needs: the edges and pieces it names, closing an edge, joining what hangs together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.read.tree import Text
from booklet.sew.bench import Act, Bench, CutPiece, Edge, merge
from booklet.sew.names import edges_named, excuse_meant, part_named

if TYPE_CHECKING:
    from booklet.finding import Place
    from booklet.model.pattern import EdgeName


CLOSING = frozenset({"join", "close", "zipper", "placket"})


def edges_of(bench: Bench, act: Act, names: tuple[EdgeName, ...]) -> list[Edge]:
    closing = act.entry.operation.bench in CLOSING
    every: list[list[Edge]] = []
    for name in names:
        told = len(bench.missing)
        edges = edges_named(bench, name, act.step, act.entry, closing)
        if not edges:
            act.broken = True
            if closing and len(bench.missing) > told:
                excuse_meant(bench, name, act.entry)
        every.append(edges)
    return every[0] if len(every) == 1 else list(dict.fromkeys(edge for edges in every for edge in edges))


def close_edge(edge: Edge, act: Act) -> None:
    """Closes an edge, and with it what was basted to it, layer upon layer."""
    todo = [edge]
    while todo:
        edge = todo.pop()
        if edge.closed is None:
            edge.closed = act
            todo += [other for basting in edge.basted for other in basting.edges]


def join_groups(edges: list[Edge]) -> None:
    group = edges[0].cut.group
    for edge in edges[1:]:
        group = merge(group, edge.cut.group)


def cuts_of(bench: Bench, act: Act, names: tuple[EdgeName, ...]) -> list[CutPiece]:
    """The cut pieces of parts; an edge name (`front.hem`) means its edges."""
    found: dict[CutPiece, None] = {}
    for name in names:
        if name.edge:
            act.edges += edges_named(bench, name, act.step, act.entry, closing=False)
            continue
        part = part_named(bench, name.part, name.written, name.place, act.step, act.entry)
        if part is None:
            act.broken = True
            continue
        act.parts.append(part)
        found.update(dict.fromkeys(part.cuts))
    return list(found)


def mark(bench: Bench, act: Act) -> None:
    act.edges = edges_of(bench, act, act.entry.things)


def place_in(act: Act, cut: CutPiece) -> Place:
    """Where the entry names the cut piece, or a part that holds it."""
    named = [name.place for name, part in zip(act.entry.things, act.parts, strict=False) if part.holds(cut)]
    return named[0] if named and not act.broken else act.place


def edge_text(part: str, edge: str, of: Text) -> EdgeName:
    from booklet.model.pattern import EdgeName

    return EdgeName(part, edge, of.value, of.place)
