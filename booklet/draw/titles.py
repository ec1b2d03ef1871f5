"""Where the names of parts stand on the map: beside their joints, over no line, joint or other name."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from booklet.draw.ink import millimetres, points
from booklet.draw.letters import ABOVE, BELOW, fitted, width
from booklet.draw.place import Box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.draw.joints import Row
    from booklet.plan.flow import GarmentMap


class Title(NamedTuple):
    """A part's name on paper: lines from (x, y), its base line, and a leader from its joint where it stands apart."""

    lines: tuple[str, ...]
    x: float
    y: float
    anchor: str
    heavy: bool = False
    leader: tuple[float, float] | None = None

    @property
    def box(self) -> Box:
        wide = max(width(line, self.heavy) for line in self.lines)
        left = self.x - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        size, more = points("words", "size"), millimetres("words", "leading") * (len(self.lines) - 1)
        return Box(left, self.y - ABOVE * size, left + wide, self.y + more + BELOW * size)


# Air round a name, in millimetres.
AIR = 0.4
# From name to name above a lane, in lines: enough that two are not read as one on two lines.
APART = 1.45


def titles_of(garment: GarmentMap, rows: Sequence[Row], left: float) -> tuple[Title, ...]:
    """A name for every part; one that finds no room is left out, and stands in the sentences still.

    left: where the lanes begin; what stands left of it is full.
    """
    high = millimetres("branches", "square") / 2
    solid = [Box(*box) for row in rows for box in lines_of(row)] + [spot.box for row in rows for spot in row.spots]
    solid += [Box(0.0, row.y - high, left, row.y + high) for row in rows]
    made: list[Title] = []
    whole = len(garment.lanes) == 1
    for row in rows:
        if row.into is None:
            _add(list(_ends(row, garment.title if whole else row.lane.part)), solid, made)
    for row in rows:
        named = [at for at, spot in enumerate(row.spots) if spot.joint.makes]
        if row.into is None and named and (not whole or row.lane.part.lower() in garment.title.lower()):
            named = named[: -1 if named[-1] == len(row.spots) - 1 else None]
        for at in reversed(named):
            _add(list(_spots(row, at, last=at == named[-1])), solid, made)
    return tuple(made)


def lines_of(row: Row) -> Iterator[tuple[float, float, float, float]]:
    """The lane as boxes: along its row, and up to its joint."""
    thick = points("branches", "trunk") / 2
    start = row.spots[0].x if row.spots else row.end
    yield 0.0, row.y - thick, max(start, row.end), row.y + thick
    if row.into is not None:
        bend = millimetres("branches", "bend")
        yield row.end - thick, row.into.box.bottom, row.end + thick, row.y
        yield row.end - bend, row.y - bend, row.end, row.y


def _add(tried: list[Title], solid: list[Box], made: list[Title]) -> None:
    right, words = millimetres("strip", "wide"), [one.box for one in made]
    leaders = [_leader(one) for one in made if one.leader]
    for title in tried:
        box = title.box
        air = Box(box.left - AIR, box.top - AIR / 2, box.right + AIR, box.bottom + AIR / 2)
        if box.left < 0 or box.right > right or box.top < 0:
            continue
        if any(air.meets(other) for other in (*solid, *words, *leaders)):
            continue
        if title.leader and any(_leader(title).meets(other) for other in (*words, *leaders)):
            continue
        made.append(title)
        return


def _leader(title: Title) -> Box:
    assert title.leader is not None
    x, y = title.leader
    return Box(x - 0.3, title.box.bottom, x + 0.3, y - 0.1)


def _ends(row: Row, words: str) -> Iterator[Title]:
    """The name of what is finished, at the end of its line."""
    right, size = millimetres("strip", "wide"), points("words", "size")
    room = right - row.end - 1.2
    lines = tuple(fitted(words[:1].upper() + words[1:], max(room, 12.0), heavy=True).split("\n"))
    up = millimetres("words", "leading") * (len(lines) - 1) / 2
    yield Title(lines, row.end + 1.2, row.y + size * 0.33 - up, "start", True)
    yield Title(lines, right, row.y - 1.2 - 2 * up, "end", True)


def _spots(row: Row, at: int, last: bool) -> Iterator[Title]:
    """After the joint above the line; after a later joint, where it keeps that name; below, before it, over it; then
    higher up, with a leader. On one line before two."""
    spot, leading, size = row.spots[at], millimetres("words", "leading"), points("words", "size")
    name, box = spot.joint.makes, spot.box
    above, below = row.y - 0.9 - BELOW * size, row.y + 0.9 + ABOVE * size
    every = [tuple(fitted(name, longest).split("\n")) for longest in (width(name) + 0.1, 16.0, 12.0)]
    for lines in dict.fromkeys(every):
        up = leading * (len(lines) - 1)
        yield Title(lines, box.right + 0.5, above - up, "start")
        if last and row.into is not None:
            yield from (Title(lines, later.box.right + 0.5, above - up, "start") for later in row.spots[at + 1 :])
        yield Title(lines, box.right + 0.5, below, "start")
        yield Title(lines, box.left - 0.5, above - up, "end")
        top = box.top - 0.9 - BELOW * size - up
        yield Title(lines, spot.x, top, "middle")
        yield Title(lines, box.left, top, "start")
        for anchor in ("start", "end"):
            off = 0.8 if anchor == "start" else -0.8
            for step in range(1, 4):
                yield Title(lines, spot.x - off, top - step * leading * APART, anchor, False, (spot.x, box.top))
