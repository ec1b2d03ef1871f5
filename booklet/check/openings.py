"""The openings through which parts are turned: what was still open, and which edges the writer names for it."""

from __future__ import annotations

from collections import deque
from functools import lru_cache
from typing import TYPE_CHECKING

from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.sew.bench import Act, Bench, CutPiece, Edge

# Which operations shut an edge, so that nothing can be pulled through it? A hem, a casing or a zipper leaves it open.
SHUTS = frozenset({"sew", "close", "slipstitch"})


def named_opening(act: Act) -> tuple[Text, list[Edge]] | None:
    """What `through:` of a turning names, and the edges that it means: as the bench took it, or of what is turned."""
    through: Text | None = act.entry.options.get("through")
    if through is None:
        return None
    if "." in through.value:
        return through, [edge for edge in act.edges if edge.name == same_name(through.value.partition(".")[2])]
    name = same_name(through.value)
    return through, [edge for cut in act.cuts for edge in cut.copies(name)]


@lru_cache(maxsize=1)
def turned_through(bench: Bench) -> dict[Edge, Act]:
    """By edge, the turning for which the writer leaves it open."""
    found: dict[Edge, Act] = {}
    for act in bench.of("turn"):
        named = named_opening(act)
        for edge in named[1] if named else ():
            found.setdefault(edge, act)
    return found


def open_at(edge: Edge, time: int) -> bool:
    closed = edge.closed
    return closed is None or closed.time > time or closed.name not in SHUTS


def hanging_together(act: Act) -> Iterator[CutPiece]:
    """The pieces of what is turned, and then all that was sewn or basted to them before, from near to far."""
    found: dict[CutPiece, None] = dict.fromkeys(act.cuts)
    todo = deque(found)
    while todo:
        cut = todo.popleft()
        yield cut
        for edge in cut.edges.values():
            for seam in (*edge.seams, *edge.basted):
                for other in seam.edges if seam.act.time < act.time else ():
                    if other.cut not in found:
                        found[other.cut] = None
                        todo.append(other.cut)
