"""Lays the cloths of a figure out: each piece by a rigid motion onto what it meets, whole pieces unfolded."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from booklet.draw.flat.bend import Bend, bent, depth
from booklet.draw.flat.chain import Link, chained, sampled
from booklet.draw.flat.drawn_up import DrawnUp, drawn_up
from booklet.draw.flat.eased import Eased
from booklet.draw.flat.strap import strap
from booklet.read.tree import same_name
from booklet.shape.close import close_dart
from booklet.shape.course import Point, along, distance, length, nearest
from booklet.shape.meet import ends_of, starts_told
from booklet.shape.motion import Motion, onto
from booklet.shape.recut import cut_along

if TYPE_CHECKING:
    from booklet.plan.picture import Cloth, StepFigure
    from booklet.shape.figure_size import Outlined
    from booklet.shape.piece import PieceShape
    from booklet.shape.seamline import Flat

Placing = Motion | Bend | DrawnUp | Eased

# How far may two edges lie apart where a piece is moved as a whole, in millimetres of cloth? Our choice: four tenths
# of a millimetre on paper at a tenth of life size.
EXACT = 4.0
# How far apart, and of how different a length, may two edges be that are eased onto one another, in millimetres of
# cloth and as a share? Our choice; what differs more is laid tangent.
EASED, ALIKE = 60.0, 0.06
# How far may the folds of two halves lie apart and still be one line, in millimetres of cloth? Our choice.
ONE_LINE = 4.0
# Between pieces that don't hang together, in millimetres of cloth. Our choice.
APART = 60.0
# How deep may a piece be to be bent along an edge, as a share of the edge's length? Our choice.
NARROW = 0.6


class Lying(NamedTuple):
    """One cloth in its place. together: the number of the first cloth of those that it hangs together with."""

    cloth: Cloth
    shape: PieceShape
    motion: Placing
    together: int
    order: int

    def edge(self, name: str) -> Link:
        """An edge's seam line in its place."""
        edge = self.shape.edges[name]
        before, after = ends_of(self.shape, name)
        return Link(self.motion.all(edge.seam), self.shape.backwards == self.motion.flipped, before, after)

    def cut_edge(self, name: str) -> Flat:
        return self.motion.all(self.shape.edges[name].cut)


class Spread(NamedTuple):
    """All cloths in their places, lowest first. axes: where the cloths of one `together` are unfolded, their fold."""

    lying: tuple[Lying, ...]
    axes: dict[int, tuple[Point, Point]]


class CantLay(ValueError):
    """A piece or an edge has no outline, or a piece can't lie flat as it is asked to."""


def spread_out(figure: StepFigure, shapes: Outlined) -> Spread:
    """Every cloth in its place. Raises CantLay."""
    lying: list[Lying] = []
    for number, cloth in enumerate(figure.cloths):
        shape = _shape(cloth, shapes)
        together = lying[cloth.meets[0].other].together if _hangs(cloth) else number
        motion = _motion(cloth, shape, lying) if _hangs(cloth) else _alone(number, cloth, shape, figure, shapes)
        order = lying[cloth.meets[0].other].order - 1 if cloth.how == "under" else number * 10
        lying.append(Lying(cloth, shape, motion, together, order))
    axes = {first: axis for first in dict.fromkeys(one.together for one in lying) if (axis := _axis(lying, first))}
    return Spread(tuple(sorted(_in_a_row(lying, axes), key=lambda one: one.order)), axes)


def _hangs(cloth: Cloth) -> bool:
    return bool(cloth.meets) and cloth.how != "alone"


def _alone(number: int, cloth: Cloth, shape: PieceShape, figure: StepFigure, shapes: Outlined) -> Motion | DrawnUp:
    """As it lies by itself, its gathered edge drawn up to the length of what it meets."""
    motion = Motion(flipped=cloth.face == "wrong")
    for name in cloth.gathered:
        share = _share(number, name, shape, figure, shapes)
        if share is not None and name in shape.edges:
            before, after = ends_of(shape, name)
            at_fold = "start" if before == "fold" else "end" if after == "fold" else ""
            return drawn_up(shape.edges[name].seam, at_fold, share, motion)
    return motion


def _share(number: int, edge: str, shape: PieceShape, figure: StepFigure, shapes: Outlined) -> float | None:
    """How long an edge is when it is drawn up, of what it was: as long as the edge that meets it, or its part of it."""
    for cloth in figure.cloths:
        mine = [meeting for meeting in cloth.meets if (meeting.other, meeting.other_edge) == (number, edge)]
        other = _shape(cloth, shapes) if mine else None
        if other is None or mine[0].edge not in other.edges:
            continue
        beside = [one for one in cloth.meets if one.edge == mine[0].edge]
        long = [_shape(figure.cloths[one.other], shapes).edges[one.other_edge].length for one in beside]
        return min(other.edges[mine[0].edge].length / math.fsum(long), 1.0)
    return None


def _shape(cloth: Cloth, shapes: Outlined) -> PieceShape:
    shape = shapes.of(cloth.piece, shapes.figure_size)
    if shape is None:
        raise CantLay(cloth.piece)
    asked = ("as it is by now", cloth.cut_to, cloth.darts)
    if asked not in shape.kept:
        shape.kept[asked] = _by_now(cloth, shape)
    found: PieceShape = shape.kept[asked]
    return found


def _by_now(cloth: Cloth, shape: PieceShape) -> PieceShape:
    """The piece after it was cut along marked lines, and darts in it were sewn."""
    for edge, line in cloth.cut_to:
        name = next((name for name in shape.edges if same_name(name) == same_name(edge)), "")
        if name:
            shape = cut_along(shape, name, line, shape.edges[name].allowance)
    for dart in cloth.darts:
        name = next((name for name in shape.darts if same_name(name) == same_name(dart)), "")
        shape = close_dart(shape, name)
    return shape


def _motion(cloth: Cloth, shape: PieceShape, lying: Sequence[Lying]) -> Placing:
    """Brings the cloth's edges onto those that it meets: level where they are alike, bent along them where the piece
    is narrow, else tangent at one place."""
    if cloth.how == "placed":
        return _placed(cloth, shape, lying[cloth.meets[0].other])
    if cloth.how == "strap":
        return strap(cloth, shape, lying[cloth.meets[0].other])
    mine, theirs = [], []
    several = len({meeting.other for meeting in cloth.meets}) > 1
    for meeting in cloth.meets:
        other = lying[meeting.other]
        if meeting.edge not in shape.edges or meeting.other_edge not in other.shape.edges:
            continue
        mine.append(meeting.edge)
        theirs.append(_of_piece(other, meeting.other_edge) if several else other.edge(meeting.other_edge))
    if not mine:
        raise CantLay(cloth.piece)
    if cloth.how == "opened" and any(_on_fold(lying[meeting.other], meeting.other_edge) for meeting in cloth.meets):
        raise CantLay(cloth.piece)
    own = chained(
        [Link(shape.edges[name].seam, not shape.backwards, *ends_of(shape, name)) for name in dict.fromkeys(mine)]
    )
    target = chained(theirs)
    same_piece = lying[cloth.meets[0].other].shape.name == shape.name
    same_side = cloth.how != "opened"
    told = starts_told((own.before, own.after), (target.before, target.after))
    if same_piece and _folded(cloth):
        told = -1
    if told < 0 or (not told and _more_upright(own.turned(), own, target, same_side)):
        own = own.turned()
    flipped = (own.inside_right == target.inside_right) != same_side
    if cloth.strip:
        return bent(shape, own.points, target.points, flipped)
    return _fitted(own, target, flipped, shape, bool(cloth.halved))


def _more_upright(one: Link, two: Link, target: Link, same_side: bool) -> bool:
    """Whether a piece stands more nearly as it is drawn when it lies by the one way round rather than by the other:
    where no name tells, what is up on the paper stays up."""
    cosines = [
        onto(sampled(own.points), sampled(target.points), (own.inside_right == target.inside_right) != same_side).cosine
        for own in (one, two)
    ]
    return cosines[0] > cosines[1] + 1e-6


def _of_piece(one: Lying, edge: str) -> Link:
    """An edge of one of several pieces, whose names tell the ends apart as well: a cap's back from its front."""
    link = one.edge(edge)
    before, after = (name if name == "fold" else f"{name} {one.shape.name}" for name in (link.before, link.after))
    return link._replace(before=before, after=after)


def crosses_fold(cloth: Cloth) -> bool:
    """Whether it lies across the fold of what it is placed on, on a dot, named twice, and its mirror image; or is a
    strap, of which there is one."""
    twice = cloth.how == "placed" and len(cloth.dots) == 2 and cloth.dots[0] == cloth.dots[1]
    return twice or cloth.how == "strap"


def across(start: Point, end: Point) -> Motion:
    """The mirror image in a line."""
    far = (start[0] - (end[1] - start[1]), start[1] + (end[0] - start[0]))
    back = (start[0] + (end[1] - start[1]), start[1] - (end[0] - start[0]))
    return onto([start, end, far], [start, end, back], True)


def _placed(cloth: Cloth, shape: PieceShape, on: Lying) -> Motion:
    """The ends of its edge on two dots, the piece as upright as it is drawn; or its middle on one."""
    holes = on.shape.holes
    dots = [on.motion(holes[at]) for at in (int(name.lstrip("d")) - 1 for name in cloth.dots) if 0 <= at < len(holes)]
    edge = shape.edges.get(cloth.meets[0].edge)
    if crosses_fold(cloth) and on.shape.fold is not None and dots:
        dots[1] = across(on.motion(on.shape.fold[0]), on.motion(on.shape.fold[1]))(dots[0])
    if len(dots) == 1:
        wide, high = ([point[axis] for point in shape.seam] for axis in (0, 1))
        moved = Motion(flipped=on.motion.flipped)
        x, y = moved(((min(wide) + max(wide)) / 2, (min(high) + max(high)) / 2))
        return moved._replace(x=dots[0][0] - x, y=dots[0][1] - y)
    if len(dots) < 2 or edge is None:
        raise CantLay(cloth.piece)
    ends = [edge.seam[0], edge.seam[-1]]
    both = [onto(ends, order, on.motion.flipped) for order in (dots[:2], dots[1::-1])]
    return max(both, key=lambda motion: motion.cosine)


def _on_fold(one: Lying, edge: str) -> bool:
    """Whether an edge lies on the piece's own fold, as a slit does: what is sewn there can't lie opened out."""
    fold = one.shape.fold
    return (
        fold is not None
        and edge in one.shape.edges
        and all(nearest(fold, point)[1] < 2.0 for point in one.shape.edges[edge].cut)
    )


def _folded(cloth: Cloth) -> bool:
    return any(meeting.edge != meeting.other_edge for meeting in cloth.meets)


def _fitted(own: Link, target: Link, flipped: bool, shape: PieceShape, halved: bool) -> Placing:
    motion = onto(sampled(own.points), sampled(target.points), flipped)
    off = max(distance(motion(a), b) for a, b in zip(sampled(own.points), sampled(target.points), strict=True))
    if off <= EXACT:
        return motion
    if depth(own.points, shape.cut) * (0.5 if halved else 1.0) <= NARROW * length(own.points):
        return bent(shape, own.points, target.points, flipped)
    if off <= EASED and abs(length(own.points) / length(target.points) - 1) <= ALIKE:
        return _eased(motion, own, target, shape)
    return _tangent(own, target, flipped)


def _eased(motion: Motion, own: Link, target: Link, shape: PieceShape) -> Eased:
    """With what is known of it where another step has eased the piece so."""
    asked = ("eased", motion, own.points, target.points)
    if asked not in shape.kept:
        shape.kept[asked] = Eased(motion, own.points, target.points)
    found: Eased = shape.kept[asked]
    return found


def _tangent(own: Link, target: Link, flipped: bool) -> Motion:
    """Where folds meet, they stay together; else the middles do. There both run the same way."""
    if own.before == target.before == "fold":
        mine, theirs = 0.0, 0.0
    elif own.after == target.after == "fold":
        mine, theirs = length(own.points), length(target.points)
    else:
        mine, theirs = length(own.points) / 2, length(target.points) / 2
    near = min(length(own.points), length(target.points)) / 8
    return onto(_about(own.points, mine, near), _about(target.points, theirs, near), flipped)


def _about(points: Flat, way: float, near: float) -> list[Point]:
    """Three points along a line: at a place and shortly before and behind it, or only on one side at an end."""
    whole = length(points)
    if way <= 0:
        return [along(points, 0), along(points, near / 2), along(points, near)]
    if way >= whole:
        return [along(points, whole), along(points, whole - near / 2), along(points, whole - near)]
    return [along(points, way), along(points, way - near), along(points, way + near)]


def _axis(lying: Sequence[Lying], first: int) -> tuple[Point, Point] | None:
    """The line on which all folds of some cloths lie, where there is one, and no cloth lies across it."""
    mine = [one for one in lying if one.together == first and not crosses_fold(one.cloth)]
    folds = [(one.motion(one.shape.fold[0]), one.motion(one.shape.fold[1])) for one in mine if one.shape.fold]
    if not folds:
        return None
    start, end = max(folds, key=lambda fold: distance(*fold))
    across, down = (end[0] - start[0]) / distance(start, end), (end[1] - start[1]) / distance(start, end)

    def off(point: Point) -> float:
        return (point[0] - start[0]) * down - (point[1] - start[1]) * across

    if any(abs(off(point)) > ONE_LINE for fold in folds for point in fold):
        return None
    offs = [off(point) for one in mine for point in one.motion.all(one.shape.cut)]
    if max(offs) > ONE_LINE * 3 and min(offs) < -ONE_LINE * 3:
        raise CantLay(mine[0].cloth.piece)
    return start, end


def _in_a_row(lying: Sequence[Lying], axes: dict[int, tuple[Point, Point]]) -> list[Lying]:
    """What does not hang together stands side by side, the tops level; a fold stands upright."""
    found: list[Lying] = []
    x = 0.0
    for first in dict.fromkeys(one.together for one in lying):
        mine = [one for one in lying if one.together == first]
        axis = axes.get(first)
        turn = _upright(*axis) if axis else Motion()
        points = [turn(point) for one in mine for point in one.motion.all(one.shape.cut)]
        if axis:
            at = turn(axis[0])[0]
            points += [(2 * at - point[0], point[1]) for point in points]
        move = Motion(x=x - min(p[0] for p in points), y=-min(p[1] for p in points)).after(turn)
        x += max(p[0] for p in points) - min(p[0] for p in points) + APART
        found += [one._replace(motion=_after(move, one.motion)) for one in mine]
        if axis:
            axes[first] = (move(axis[0]), move(axis[1]))
    return found


def _after(move: Motion, motion: Placing) -> Placing:
    return move.after(motion) if isinstance(motion, Motion) else motion.moved(move)


def _upright(start: Point, end: Point) -> Motion:
    """A turn that sets a line upright, the shorter way."""
    angle = math.atan2(end[0] - start[0], end[1] - start[1])
    if angle > math.pi / 2:
        angle -= math.pi
    elif angle < -math.pi / 2:
        angle += math.pi
    return Motion(math.cos(angle), math.sin(angle))
