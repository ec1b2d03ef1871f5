"""Operations that use up a piece beside the one that they work on: bind, pipe, placket, a faced hem, underlining."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.model.pattern import EdgeName
from booklet.read.tree import Text, same_name
from booklet.sew.bench import Act, Bench, Missing, merge
from booklet.sew.hands import close_edge, edges_of
from booklet.sew.names import copy_of, part_named

if TYPE_CHECKING:
    from booklet.sew.bench import CutPiece, Part


def take_in(bench: Bench, act: Act) -> None:
    """The part that `with` names hangs together with what is worked from here on.

    Its edges lie covered, but may still be sewn: the ends of a binding lie in the next seam. A name that is no part's
    is a notion's, except where only a piece will do.
    """
    name: Text | None = act.entry.options.get("with")
    if name is None or not (act.entry.operation.options["with"] == "part" or _is_part(bench, name)):
        return
    part = part_named(bench, same_name(name.value), name.value, name.place, act.step, act.entry)
    if part is None:
        act.broken = True
        return
    _hold(act, part)


def _is_part(bench: Bench, name: Text) -> bool:
    wanted = same_name(name.value)
    return wanted in bench.parts or wanted in bench.pattern.pieces or wanted in bench.made_anywhere


def _hold(act: Act, part: Part) -> None:
    worked = [*(edge.cut for edge in act.edges), *act.cuts]
    for cut in part.cuts:
        act.taken.append(cut)
        for edge in cut.edges.values():
            if not edge.spec.fold:
                edge.finished = edge.finished or act
        for base in worked[:1]:
            merge(base.group, cut.group)
    act.cuts += act.taken


def has_line(cut: CutPiece, name: str) -> bool:
    return any(same_name(line.value) == name for line in cut.piece.lines)


def on_line(bench: Bench, act: Act, name: EdgeName) -> list[CutPiece]:
    """The pieces of a part that have the marked line; empty after recording that none has."""
    part = part_named(bench, name.part, name.written, name.place, act.step, act.entry)
    if part is None:
        return []
    found = [cut for cut in part.cuts if has_line(cut, name.edge)]
    if not found:
        known = tuple(dict.fromkeys(line.value.strip() for cut in part.cuts for line in cut.piece.lines))
        bench.missing.append(
            Missing("unknown line", act.step, name.written, name.place, act.entry, part, known=known, time=act.time)
        )
    return found


def add(bench: Bench, act: Act) -> None:
    """Pipe and loop: along edges that stay open, for a seam to close."""
    act.edges = edges_of(bench, act, act.entry.things)
    take_in(bench, act)


def placket(bench: Bench, act: Act) -> None:
    """Of a slit that is an edge of the piece, or a line on it that is cut open here."""
    for name in act.entry.things:
        part = bench.parts.get(copy_of(bench, name.part)[1])
        slit = [cut for cut in part.cuts if has_line(cut, name.edge)] if part else []
        act.cuts += slit
        if not slit:
            act.edges += edges_of(bench, act, (name,))
    for edge in act.edges:
        close_edge(edge, act)
    take_in(bench, act)
    bench.last_work = act
