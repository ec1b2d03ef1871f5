"""A laid cloth as an area on paper: its outline as it is by now, mirrored where it is unfolded."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, NamedTuple

from booklet.draw.flat.spread import across, crosses_fold
from booklet.shape.course import distance
from booklet.shape.inset import inset, ring_of
from booklet.shape.motion import Motion

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from booklet.draw.flat.spread import Lying, Spread
    from booklet.plan.picture import Mark
    from booklet.shape.course import Point
    from booklet.shape.seamline import Flat


# How much of a cloth is shown along an edge where no more of it is needed, in millimetres of cloth? Our choice.
STRIP = 62.0
# Two halves that lie no further apart than twice this are one, in millimetres of cloth. Our choice.
SLIT = 2.2
# A corner sharper than the angle of this cosine, about ten degrees, with a side shorter than so many millimetres of
# cloth, is no corner. Our choice.
BACK, SPUR = 0.985, 40.0


class Sheet(NamedTuple):
    """area: in millimetres of cloth, a shapely polygon, or two where a pair lies left and right; mirror: what brings
    its one half onto the other, or None; ends: how far inside the cutting line the cloth ends by now, by edge; centre:
    the line on which it is unfolded; fold: where it is folded, or where only half of it is laid out, that line; torn:
    where the cloth goes on, though no more of it is shown."""

    lying: Lying
    area: Any
    mirror: Motion | None
    ends: dict[str, float]
    centre: tuple[Point, Point] | None = None
    fold: Flat | None = None
    torn: Any = None

    def rows(self, widths: Mapping[str, float], edges: Iterable[str]) -> list[Flat]:
        """Lines inside some edges, at their widths from the cutting line, joined where edges follow each other."""
        lines = inset(self.lying.shape, {**self.ends, **widths})
        return self.placed(joined([lines[name] for name in lines if name in set(edges)]))

    def placed(self, lines: Iterable[Flat]) -> list[Flat]:
        """Lines of the piece where the cloth lies, and their mirror images."""
        here = [self.lying.motion.all(line) for line in lines]
        return here + [self.mirror.all(line) for line in here] if self.mirror else here

    def edges(self, names: Iterable[str]) -> list[Flat]:
        """The cloth's edges as they are by now."""
        names = set(names)
        return self.rows({name: self.ends.get(name, 0.0) for name in names}, names)


def ends(lying: Lying, turned: Iterable[str]) -> dict[str, float]:
    """How far inside the cutting line the cloth ends: at seam lines and hem folds."""
    cloth = lying.cloth
    done = {*cloth.sewn, *cloth.hemmed, *cloth.turned_in, *turned}
    at = {name: float(width.millimetres) for name, width in cloth.ends_at}
    return {name: at.get(name, edge.allowance) for name, edge in lying.shape.edges.items() if name in {*done, *at}}


def joined(lines: list[Flat]) -> list[Flat]:
    """Lines that follow each other, as one."""
    found: list[Flat] = []
    for line in lines:
        if found and _near(found[-1][-1], line[0]):
            found[-1] = (*found[-1], *line[1:])
        else:
            found.append(line)
    if len(found) > 1 and _near(found[-1][-1], found[0][0]):
        found[0] = (*found.pop(), *found[0][1:])
    return found


def _near(one: Point, two: Point) -> bool:
    return abs(one[0] - two[0]) + abs(one[1] - two[1]) < 0.5


def sheets(spread: Spread, marks: Iterable[Mark], numbers: Mapping[int, int]) -> list[Sheet]:
    """The areas of all cloths, lowest first. numbers: where the request's cloths stand among them."""
    turned: dict[int, set[str]] = {}
    trimmed: dict[int, dict[str, float]] = {}
    for mark in marks:
        at = numbers[mark.cloth]
        if mark.kind in ("hem", "casing", "insert", "turn in"):
            turned.setdefault(at, set()).update(mark.edges)
        elif mark.kind == "trim" and mark.at is not None:
            trimmed.setdefault(at, {}).update(_cut_away(spread.lying[at], mark.edges, float(mark.at.millimetres)))
    for at, one in list(trimmed.items()):
        for other, cut in _cut_with(spread.lying, spread.lying[at], one, numbers):
            trimmed.setdefault(other, cut)
    return [_sheet(one, spread, turned.get(at, set()), trimmed.get(at, {})) for at, one in enumerate(spread.lying)]


def _cut_away(lying: Lying, edges: Iterable[str], left: float) -> dict[str, float]:
    """How much is trimmed off each edge that has more allowance than is to be left."""
    own = {name: lying.shape.edges[name].allowance for name in edges if name in lying.shape.edges}
    return {name: width - left for name, width in own.items() if width > left}


def _cut_with(
    lying: Sequence[Lying], upper: Lying, trimmed: Mapping[str, float], numbers: Mapping[int, int]
) -> Iterator[tuple[int, dict[str, float]]]:
    """The cloths below are cut with the uppermost, on the edges that lie on its own: as wide as that is left."""
    for at, one in enumerate(lying):
        for meeting in one.cloth.meets if one.cloth.how == "under" else ():
            if meeting.other_edge in trimmed and numbers.get(meeting.other) == lying.index(upper):
                width = upper.shape.edges[meeting.other_edge].allowance - trimmed[meeting.other_edge]
                yield at, _cut_away(one, [meeting.edge], width)
    left = {name: upper.shape.edges[name].allowance - width for name, width in trimmed.items()}
    for meeting in upper.cloth.meets:
        if meeting.edge in left and meeting.other in numbers and upper.cloth.how == "laid":
            at = numbers[meeting.other]
            cut = _cut_away(lying[at], [meeting.other_edge], left[meeting.edge])
            if cut and lying[at] is not upper:
                yield at, cut


def _sheet(lying: Lying, spread: Spread, turned: set[str], trimmed: dict[str, float]) -> Sheet:
    from shapely import Polygon, union

    gone = {**trimmed, **ends(lying, turned)}
    lines = inset(lying.shape, gone)
    ring, torn = ring_of(lines, lying.shape.backwards), None
    if lying.cloth.strip:
        ring, torn = _strip(lying, ring)
    fold: Flat | None = None
    if lying.cloth.halved:
        ring, fold = _folded(lying, ring)
    area: Any = _largest(Polygon(_without_spurs(lying.motion.all(ring))).buffer(0))
    axis = spread.axes.get(lying.together)
    mirror = across(*axis) if axis and not crosses_fold(lying.cloth) else None
    middle = (lying.motion(lying.shape.fold[0]), lying.motion(lying.shape.fold[1])) if lying.shape.fold else None
    if mirror:
        other = Polygon(mirror.all(tuple(area.exterior.coords)))
        # To a hundredth of a millimetre, so that the two halves grow together along the fold.
        area = _grown_together(union(area, other, grid_size=0.01))
    return Sheet(lying, area, mirror, gone, middle if mirror else None, fold or (None if mirror else middle), torn)


def _without_spurs(ring: Flat) -> Flat:
    """Without the hairs that stand out where two neighbouring lines run past their corner and back."""
    points, at = list(ring[:-1]), 0
    while at < len(points) and len(points) > 3:
        before, here, after = points[at - 1], points[at], points[(at + 1) % len(points)]
        ux, uy, vx, vy = before[0] - here[0], before[1] - here[1], after[0] - here[0], after[1] - here[1]
        one, two = math.hypot(ux, uy), math.hypot(vx, vy)
        if min(one, two) < 1e-6 or (min(one, two) < SPUR and ux * vx + uy * vy > BACK * one * two):
            del points[at]
            at = max(at - 2, 0)
        else:
            at += 1
    return (*points, points[0])


def _grown_together(area: Any) -> Any:
    """Two halves that lie a hair apart along their fold, as bent pieces do, as one."""
    if area.geom_type != "MultiPolygon":
        return area
    closed = area.buffer(SLIT, join_style="mitre").buffer(-SLIT, join_style="mitre")
    return closed if closed.geom_type == "Polygon" else area


def _strip(lying: Lying, ring: Flat) -> tuple[Flat, Any]:
    """The part of a ring that lies along some edges, and the line where it was parted from the rest, in its place."""
    from shapely.geometry import LineString, Polygon

    part = Polygon(ring)
    for name in lying.cloth.strip:
        if name in lying.shape.edges:
            part = part.intersection(LineString(lying.shape.edges[name].cut).buffer(STRIP))
    outline = tuple(_largest(part).exterior.coords)
    parted = LineString(outline).difference(LineString(ring).buffer(0.2))
    longest = max(getattr(parted, "geoms", [parted]), key=lambda one: one.length)
    return outline, LineString(lying.motion.all(tuple(longest.coords))) if not longest.is_empty else None


def _largest(area: Any) -> Any:
    return max(area.geoms, key=lambda one: one.area) if hasattr(area, "geoms") else area


def _folded(lying: Lying, ring: Flat) -> tuple[Flat, Flat | None]:
    """One half of a piece, of which one edge lies on another: the fold, in its place, is the line half-way between
    them."""
    from shapely.geometry import LineString, Polygon

    first, second = lying.cloth.halved
    if first not in lying.shape.edges or second not in lying.shape.edges:
        return ring, None
    one, two = lying.shape.edges[first].seam, lying.shape.edges[second].seam[::-1]
    middle = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ((one[0], two[0]), (one[-1], two[-1]))]
    (ax, ay), (bx, by) = middle
    if min(distance(one[0], two[0]), distance(one[-1], two[-1])) < 2.0:
        # The edges meet in one corner and run on: the fold stands upright on them there.
        if distance(one[0], two[0]) > distance(one[-1], two[-1]):
            one, two = one[::-1], two[::-1]
        ax, ay = (one[0][0] + two[0][0]) / 2, (one[0][1] + two[0][1]) / 2
        bx, by = ax - (two[-1][1] - one[-1][1]), ay + (two[-1][0] - one[-1][0])
    size = math.hypot(bx - ax, by - ay) or 1.0
    ux, uy = (bx - ax) / size, (by - ay) / size
    area = _largest(Polygon(ring).buffer(0))
    left, top, right, bottom = area.bounds
    reach = (right - left) + (bottom - top)
    point = two[len(two) // 2]
    side = (point[0] - ax) * -uy + (point[1] - ay) * ux
    nx, ny = (-uy, ux) if side > 0 else (uy, -ux)
    start, end = (ax - ux * reach, ay - uy * reach), (bx + ux * reach, by + uy * reach)
    far = [(end[0] + nx * reach, end[1] + ny * reach), (start[0] + nx * reach, start[1] + ny * reach)]
    half = area.intersection(Polygon([start, end, *far]))
    if half.is_empty:
        return ring, None
    fold = LineString([start, end]).intersection(area.buffer(1.0))
    line = lying.motion.all(tuple(fold.coords)) if fold.geom_type == "LineString" and not fold.is_empty else None
    return tuple(_largest(half).exterior.coords), line
