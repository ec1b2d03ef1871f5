"""A strip whose two ends are sewn to one edge: it lies on the cloth in a bow, a handle or a loop."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from booklet.draw.flat.bend import Bend, depth, direction
from booklet.shape.course import Point, along, length, nearest
from booklet.shape.motion import Motion

if TYPE_CHECKING:
    from booklet.draw.flat.spread import Lying
    from booklet.plan.picture import Cloth
    from booklet.shape.piece import PieceShape
    from booklet.shape.seamline import Flat

# How far apart are the ends of a handle, as a share of its length, and of the edge at most? Our choice: its true places
# are marks on the cloth, which the figure does not know.
APART, MOST = 0.36, 0.5
# A strip shorter than this share of the edge, with its mirror image, is folded in half to a loop. Our choice.
SHORT = 0.9
# An edge that ends this near a fold goes on beyond it, in millimetres of cloth.
NEAR = 2.0
# In how many steps is the bow of it drawn?
STEPS = 16


def strap(cloth: Cloth, shape: PieceShape, on: Lying) -> Bend:
    """Bent along its middle, from one end to the other, into the cloth on which it lies."""
    own = _middle_line(cloth, shape)
    name = cloth.meets[0].other_edge
    edge, fold = on.cut_edge(name), on.shape.fold
    folds = on.motion.all(fold) if fold is not None else None
    at_fold = next((end for end in (0, -1) if folds and nearest(folds, edge[end])[1] < NEAR), None)
    long, whole = length(own), length(edge) * (1 if at_fold is None else 2)
    wide = 2 * depth(own, shape.seam) * (0.34 if cloth.halved else 1.0)
    apart = wide if long < SHORT * whole else min(APART * long, MOST * whole)
    middle = 0.0 if at_fold == 0 else length(edge) if at_fold == -1 else length(edge) / 2
    centre, (across, down) = along(edge, middle), direction(edge, middle)
    inside = 1.0 if on.shape.backwards == on.motion.flipped else -1.0
    return Bend(own, _bow(centre, (across, down), inside, apart, long), False, Motion())


def _bow(centre: Point, ahead: Point, inside: float, apart: float, long: float) -> Flat:
    """From end to end: straight into the cloth, round, and straight back."""
    (across, down), radius = ahead, apart / 2
    legs = max((long - math.pi * radius) / 2, 0.0)

    def place(forward: float, inward: float) -> Point:
        return (
            centre[0] + across * forward - down * inward * inside,
            centre[1] + down * forward + across * inward * inside,
        )

    turns = [math.pi * step / STEPS for step in range(STEPS + 1)]
    round_ = [place(-radius * math.cos(turn), legs + radius * math.sin(turn)) for turn in turns]
    return (place(-radius, 0.0), *round_, place(radius, 0.0))


def _middle_line(cloth: Cloth, shape: PieceShape) -> Flat:
    """Half-way across the strip as it is by now, along its length."""
    names = [name for name in shape.edges if name != cloth.meets[0].edge]
    side = cloth.halved[1] if cloth.halved else max(names, key=lambda name: shape.edges[name].length)
    line = shape.edges[side].cut
    off = depth(shape.edges[side].seam, shape.seam) * (0.25 if cloth.halved else 0.5) + shape.edges[side].allowance
    inner = -off if shape.backwards else off
    found = []
    for way in (0.0, length(line)):
        (x, y), (across, down) = along(line, way), direction(line, way)
        found.append((x - down * inner, y + across * inner))
    return tuple(found)
