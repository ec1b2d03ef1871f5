"""What hangs loose when a view is sewn: one missing seam, of which one rule speaks, and the others keep silent."""

from __future__ import annotations

from booklet.record import NamedTuple
from booklet.sew.bench import Bench, Edge, Group


class Loose(NamedTuple):
    """groups: what nothing joins to `main`, the largest; own: the raw edges of each; theirs: those of the main one that
    the missing seam most likely takes."""

    main: Group
    groups: tuple[Group, ...]
    own: tuple[tuple[Edge, ...], ...]
    theirs: tuple[Edge, ...]

    def explains(self, edge: Edge) -> bool:
        """Whether an edge is raw because of the missing seam; or basted to wait for it."""
        if edge.cut.group in self.groups:
            return True
        return any(edge.spec.name == other.spec.name and edge.cut.group is self.main for other in self.theirs)


def loose(bench: Bench) -> Loose | None:
    """None where all hangs together, or where a name that is not known may be why it does not.

    A seam that is spoken of, and that the view never sews, may be the one that is missing.
    """
    groups = [group for group in bench.groups if any(cut.touched for cut in group.cuts)]
    unsewn = {id(missing.entry) for missing in bench.missing if missing.kind == "no seam"}
    if len(groups) < 2 or any(missing.kind != "no seam" for missing in bench.missing):
        return None
    if any(act.broken and id(act.entry) not in unsewn for act in bench.acts):
        return None
    main = max(groups, key=lambda group: len(group.cuts))
    others = tuple(group for group in groups if group is not main)
    own = tuple(_raw(group) for group in others)
    theirs = _raw(main)
    # Of several raw edges nobody can tell which one waits for the seam.
    several = len({edge.spec.name for edge in theirs}) > len(others)
    return Loose(main, others, own, () if several else theirs)


def _raw(group: Group) -> tuple[Edge, ...]:
    return tuple(
        edge
        for cut in group.cuts
        if cut.touched is not None and not cut.trusted
        for edge in cut.edges.values()
        if is_raw(edge)
    )


def is_raw(edge: Edge) -> bool:
    """Open, and nothing done to it that lets it stay so."""
    return not (edge.closed or edge.finished or edge.excused or edge.spec.fold or edge.basted)
