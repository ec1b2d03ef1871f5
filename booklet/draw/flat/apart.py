"""Rows of stitching keep a least distance on paper from one another and from the seam or edge beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.flat.strokes import CLOSE, Bench, allowances
from booklet.draw.ink import millimetres

if TYPE_CHECKING:
    from booklet.draw.flat.sheet import Sheet
    from booklet.plan.picture import Mark

# Rows that are measured from the finished edge or the seam.
INSIDE = frozenset({"topstitch", "edgestitch", "understitch"})
# Rows that are measured from the cutting line, or lie on the seam line.
ON_LINE = frozenset({"stitch", "staystitch", "baste", "gather", "ease", "stitch in the ditch"})
# How far from the first does the second row of gathering lie, in millimetres of cloth, and how near to the edge at
# most? Common practice, no source: 1/4 in.
GATHERED, OUTERMOST = 6.0, 2.0
# Rows this near to one another, in millimetres of cloth, are one.
ONE = 0.01


def second_of(mark: Mark, sheet: Sheet) -> dict[str, float]:
    """Where the second row of gathering is to lie."""
    return {name: max(at - GATHERED, OUTERMOST) for name, at in _asked(mark, sheet).items()}


def rows_of(mark: Mark, sheet: Sheet, bench: Bench, asked: dict[str, float] | None = None) -> dict[str, float]:
    """How far inside the cutting line a row is drawn, by edge: where it is asked for, or further in where it would
    not be told from what lies beside it."""
    asked = _asked(mark, sheet) if asked is None else asked
    return {name: _apart(name, at, sheet, bench) for name, at in asked.items()}


def _apart(name: str, asked: float, sheet: Sheet, bench: Bench) -> float:
    """What lies on its seam, or on the end of its cloth, stays there."""
    own = sheet.lying.shape.edges[name].allowance
    last = sheet.ends.get(name, 0.0)
    if asked < last + ONE or abs(asked - own) < ONE:
        return asked
    gap = bench.seen(millimetres("pieces", "apart"))
    rows = {*_beside(name, sheet, bench), asked}
    held = any(abs(row - own) < ONE for row in rows)
    for row in sorted(rows):
        if row < last + ONE:
            continue
        place = row if abs(row - own) < ONE else max(row, last + gap)
        if held and row < own - ONE:
            # Between the edge and the seam, which stays: half-way where there is no room for both distances.
            place = min(place, max(own - gap, (last + own) / 2))
        if row >= asked - ONE:
            return place
        last = place
    return asked


def _beside(name: str, sheet: Sheet, bench: Bench) -> set[float]:
    """All rows along an edge of a cloth."""
    found: set[float] = set()
    for mark in bench.marks:
        if name in mark.edges and bench.sheets.get(mark.cloth) is sheet and mark.kind in INSIDE | ON_LINE:
            found.update(at for edge, at in _asked(mark, sheet).items() if edge == name)
            if mark.kind == "gather":
                found.update(at for edge, at in second_of(mark, sheet).items() if edge == name)
    return found


def _asked(mark: Mark, sheet: Sheet) -> dict[str, float]:
    """Where it truly lies: as said, else on the seam line, or close to the finished edge."""
    own = allowances(mark, sheet)
    said = float(mark.at.millimetres) if mark.at is not None else None
    if mark.kind not in INSIDE:
        return {name: width if said is None else said for name, width in own.items()}
    cloth = sheet.lying.cloth
    finished = {*cloth.sewn, *cloth.hemmed, *cloth.turned_in}
    off = CLOSE if said is None else said
    return {name: off + (width if name in finished else 0.0) for name, width in own.items()}
