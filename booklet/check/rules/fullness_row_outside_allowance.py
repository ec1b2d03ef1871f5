"""A row for easing or gathering lies outside the seam that should cover it.

What it finds: `ease` or `gather` at distances that are all wider than the allowance at which the edge is sewn in the
end. One row on each side of the seam line is in order, and so is a row on it.

Why it matters at the machine: the long stitches show on the finished garment, and nothing holds the fullness where
the seam is sewn.

Wrong:
    steps:
      - id: sleeve
        title: Set in the sleeve
        for: B
        work: [{ease: sleeve.cap, at: 3/4 in}, {sew: [[front.armhole, back.armhole], sleeve.cap]}]

Right:
    steps:
      - id: sleeve
        title: Set in the sleeve
        for: B
        work: [{ease: sleeve.cap, at: 1/2 in}, {sew: [[front.armhole, back.armhole], sleeve.cap]}]

Source: common practice, no source: a row for the fullness lies inside the allowance, 1/8 in from the seam line.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.measures import option_of
from booklet.check.numbers import as_drawn, beyond, limit, same, sewn_at
from booklet.check.words import listed
from booklet.finding import Related
from booklet.length import House, Length
from booklet.sew.bench import Act, Bench, Edge

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    house = bench.pattern.house
    for act in bench.of("ease", "gather"):
        rows = [each.length for each in option_of(act.entry, "at")]
        if not rows or act.broken or any(beyond("most staystitch", row) for row in rows):
            continue
        outside = [edge for edge in as_drawn(act) if _sewn(edge, act) and _beyond_all(rows, sewn_at(edge), house)]
        if outside:
            yield _found(act, min(rows), outside)


def _sewn(edge: Edge, act: Act) -> bool:
    closed = edge.closed
    return closed is not None and closed.name == "sew" and closed.time > act.time


def _beyond_all(rows: list[Length], line: Length, house: House) -> bool:
    return all(row > line and not same(row, line, house) for row in rows)


def _found(act: Act, row: Length, edges: list[Edge]) -> Found:
    line = min(sewn_at(edge) for edge in edges)
    inside = limit("staystitch inside seam", line.metric)
    sewn = edges[0].closed
    assert sewn is not None
    return Found(
        act.entry.place_of("at"),
        act.step,
        f"A row {row} from the edge lies outside the seam at {line} that is to cover it, on "
        f"{listed(edge.called for edge in edges)}.",
        f"{_mend(act, line, inside)}.",
        (Related(f"The seam is sewn in {sewn.step.called}", sewn.place),),
    )


def _mend(act: Act, line: Length, inside: Length) -> str:
    """One row just inside the seam; of two, the other as far again from it as is usual."""
    second = line - inside - limit("usual trim", line.metric) if line > inside else line
    if len(option_of(act.entry, "at")) > 1 and second.millimetres > 0 and second < line:
        return f"Write “at: [{line - inside}, {second}]”"
    return f"Write “at: {line - inside}”" if line > inside else f"Write less than {line}"
