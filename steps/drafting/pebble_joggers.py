"""Every piece of the Pebble Joggers."""

from __future__ import annotations

import math
from collections.abc import Iterator

from steps.drafting.curve import curve
from steps.drafting.jogger_legs import SEAM, Legs
from steps.drafting.path import Path, straight
from steps.drafting.piece import Drafted, Edge, Mark
from steps.drafting.rectangle import box, edges
from steps.drafting.tables import Measures

FOLDER, TITLE = "pebble-joggers", "Pebble Joggers"
DOWN = math.pi / 2
POCKET_HEM = 20.0


def pieces() -> Iterator[Drafted]:
    """Size by size, in the order of their numbers."""
    measures = Measures(FOLDER)
    for size in measures.sizes:
        yield from _in_size(Legs(measures, size))


def _in_size(legs: Legs) -> Iterator[Drafted]:
    of, size = legs.of, legs.size
    yield legs.drafted("front")
    yield legs.drafted("back")
    yield _pocket_bag(legs, "front pocket bag")
    yield _pocket_bag(legs, "back pocket bag")
    yield _back_pocket(size, of("back pocket"), of("back pocket depth"))
    side = of("waist patch")
    yield Drafted(
        "waist patch",
        size,
        "2",
        edges(box(side, side), ["top", "side", "bottom", "centre side"], SEAM),
        lines=(straight((side / 2, side / 2 - 6), (side / 2, side / 2 + 6)),),
        grain=((side * 0.8, side * 0.8), (side * 0.8, side * 0.2)),
    )
    yield _knee_patch(size, of("knee patch"), of("knee patch height"))
    around, high = of("Round the cuff, at rest"), 2 * of("cuff height")
    yield Drafted(
        "cuff",
        size,
        "2",
        edges(box(around, high), ["upper", "first end", "lower", "second end"], SEAM),
        (Mark("upper", around / 2), Mark("lower", around / 2)),
        lines=(straight((-SEAM, high / 2), (around + SEAM, high / 2)),),
        grain=((around / 2 + 15, high * 0.85), (around / 2 + 15, high * 0.15)),
    )


def _pocket_bag(legs: Legs, name: str) -> Drafted:
    """As it lies behind the half that is drawn: its opening at the right, the bag toward the middle and below."""
    long, wide, below = legs.of("pocket opening"), legs.of("pocket bag width"), legs.of("pocket bag below opening")
    foot, far = (-wide * 0.48, long + below), (-wide, long * 0.72)
    outer = (
        curve((0.0, long), DOWN, foot, math.pi, 0.45, 0.42)
        + curve(foot, math.pi, far, -DOWN, 0.42, 0.42)
        + curve(far, -DOWN, (0.0, 0.0), math.radians(-12), 0.5, 0.35)
    )
    return Drafted(
        name,
        legs.size,
        "2",
        (Edge("opening", straight((0.0, 0.0), (0.0, long)), SEAM), Edge("outer", outer, SEAM)),
        (Mark("opening", long / 2),),
        grain=((-wide * 0.5, long), (-wide * 0.5, long * 0.45)),
    )


def _back_pocket(size: str, wide: float, deep: float) -> Drafted:
    """A shield: straight sides, a round bottom."""
    low = deep - wide * 0.34
    half = curve((wide, low), DOWN, (wide / 2, deep), math.pi, 0.4, 0.4)
    bottom = half + half.moved(lambda point: (wide - point[0], point[1]), mirrored=True).reversed()
    return Drafted(
        "back pocket",
        size,
        "1",
        (
            Edge("top", straight((0.0, 0.0), (wide, 0.0)), POCKET_HEM, folded=True),
            Edge("right side", straight((wide, 0.0), (wide, low)), SEAM),
            Edge("bottom", bottom, SEAM),
            Edge("left side", straight((0.0, low), (0.0, 0.0)), SEAM),
        ),
        lines=(straight((-SEAM, 0.0), (wide + SEAM, 0.0)),),
        grain=((wide / 2, deep * 0.8), (wide / 2, deep * 0.25)),
    )


def _knee_patch(size: str, wide: float, high: float) -> Drafted:
    """Cut without an allowance: it is sewn down flat."""
    ring = oval(wide, high)
    return Drafted(
        "knee patch",
        size,
        "2",
        (Edge("outer", ring, 0.0, sewn=False),),
        grain=((0.0, high * 0.3), (0.0, -high * 0.3)),
    )


def oval(wide: float, high: float) -> Path:
    """Clockwise from its top, about the origin."""
    top, right, foot, left = (0.0, -high / 2), (wide / 2, 0.0), (0.0, high / 2), (-wide / 2, 0.0)
    return (
        curve(top, 0.0, right, DOWN, 0.42, 0.42)
        + curve(right, DOWN, foot, math.pi, 0.42, 0.42)
        + curve(foot, math.pi, left, -DOWN, 0.42, 0.42)
        + curve(left, -DOWN, top, 0.0, 0.42, 0.42)
    )
