"""How each construction lies at each of its stages: one module a construction, sharing the poses of a seam.

Each module has `scenes(section, scale) -> list[Picture]`.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from booklet.draw.stages import felled, french, hem, lapped, plain
from booklet.draw.stages.picture import Picture
from booklet.plan.plan import Section

# Which module draws a construction? Whatever is not named here is drawn as a plain seam.
_SCENES: dict[str, Callable[[Section, Fraction], list[Picture]]] = {
    "french": french.scenes,
    "flat felled": felled.scenes,
    "mock felled": felled.scenes,
    "lapped": lapped.scenes,
    "enclosed": plain.scenes,
    "overlocked": plain.scenes,
    "plain": plain.scenes,
    "double hem": hem.scenes,
    "casing": hem.scenes,
}


def pictures(section: Section, scale: Fraction) -> list[Picture]:
    """The strip's pictures, at `scale` paper millimetres for each of cloth; those that show nothing new are joined."""
    scenes = _SCENES.get(section.construction, plain.scenes)
    joined: list[Picture] = []
    for picture in scenes(section, scale):
        if joined and _shows_nothing_new(joined[-1], picture):
            joined[-1] = Picture(joined[-1].scene, joined[-1].stages + picture.stages)
        else:
            joined.append(picture)
    return joined


def _shows_nothing_new(before: Picture, picture: Picture) -> bool:
    old, new = before.scene, picture.scene
    same = (old.layers, old.stitches, old.loops) == (new.layers, new.stitches, new.loops)
    return same and not new.measures and not new.arrows
