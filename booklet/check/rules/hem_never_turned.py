"""An edge with a hem allowance is finished and never turned up.

What it finds: an edge that has an allowance of its own, wider than the pattern's, which a step finishes, and which no
step hems, sews, stitches or presses under. A pocket that is sewn on covers its edges, but does not hem its top.

Why it matters at the machine: the garment comes out too long by its hem, with an overlocked edge for a finish.

Wrong:
    steps:
      - {id: finish, title: Finish the hem, work: [{finish: front.hem, how: overlock}]}

Right:
    steps:
      - {id: finish, title: Finish the hem, work: [{finish: front.hem, how: overlock}]}
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1 in]}]}

Source: common practice, no source: a wider allowance is drawn to be turned.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.acts import told
from booklet.check.found import Found
from booklet.finding import Related
from booklet.sew.bench import Bench, Edge

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    if any(act.broken for act in bench.of("hem", "casing")):
        return  # a hem that came too late, or whose edge is misspelt, is told elsewhere
    for edge in dict.fromkeys(edge for act in bench.of("finish") for edge in act.edges):
        if _has_hem_allowance(bench, edge) and not _worked(edge) and not edge.cut.trusted:
            finished = edge.finished
            if finished is not None and not finished.broken and not told(bench, finished.step):
                yield Found(
                    edge.spec.place,
                    None,
                    f"The {edge.spec.name} of {edge.cut.called} has {edge.allowance()} to turn, and no step turns it.",
                    f"Hem it after it is finished, in {finished.step.called}; or give it the allowance that it needs.",
                    (Related("It is finished here", finished.place),),
                )


def _has_hem_allowance(bench: Bench, edge: Edge) -> bool:
    """Compared in one system only: a house that mixes both is left alone."""
    usual, own = bench.pattern.allowance, edge.allowance()
    return edge.spec.own_allowance is not None and own.metric == usual.metric and own > usual


def _worked(edge: Edge) -> bool:
    """Whether anything but the finish, and the pocket that covers it, was done to the edge."""
    closed = edge.closed is not None and edge.closed.name != "pocket"
    return closed or edge.excused or bool(edge.basted) or any(act.name not in IDLE for act in edge.acts)


IDLE = frozenset({"finish", "pocket", "cut", "mark", "staystitch"})
