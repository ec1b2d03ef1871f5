"""How each construction lies at each of its stages: one module a construction, sharing the poses of a seam.

Each module has `scenes(section, scale, longest) -> list[Picture]`: `scale` in paper millimetres for each of cloth,
`longest` how many millimetres wide a name may be. What the numbers of a stage are counted from:

stitch        from the cut edge; a French seam's second pass from the fold; a lapped seam's from the edge on top,
              when it is less than the allowance (a row in the middle of the lap otherwise)
trim, grade   what is left beyond the stitching; in a felled seam a single number is the under layer's, the one
              towards which both are pressed
fold          a hem's or casing's turn, one number a turn; a felled seam's fold from the seam; a lapped seam's
              allowance turned under
topstitch     from the seam, or from the edge once turned; in a flat felled seam the fold's own number, or none,
              is a row close to the fold
understitch   from the seam; its manner names the facing, else the side pressed towards
bind          the binding's finished width; of a Hong Kong seam from the cut edge to the strip's row
stitch fold   from the inner fold when less than half of the turn, else from the garment's edge; none: close to it
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from booklet.draw.stages import bound, edges, felled, french, hem, hongkong, lapped, mockfrench, piped, plain, slot
from booklet.draw.stages.picture import Picture
from booklet.plan.plan import Section

# Which module draws a construction? Whatever is not named here is drawn as a plain seam.
_SCENES: dict[str, Callable[[Section, Fraction, float], list[Picture]]] = {
    "french": french.scenes,
    "flat felled": felled.scenes,
    "mock felled": felled.scenes,
    "welt": felled.scenes,
    "topstitched": plain.scenes,
    "mock french": mockfrench.scenes,
    "bound": bound.scenes,
    "hong kong": hongkong.scenes,
    "slot": slot.scenes,
    "piped": piped.scenes,
    "lapped": lapped.scenes,
    "enclosed": plain.scenes,
    "overlocked": plain.scenes,
    "plain": plain.scenes,
    "double hem": hem.scenes,
    "blind hem": hem.scenes,
    "rolled hem": hem.scenes,
    "lettuce hem": hem.scenes,
    "faced hem": edges.faced,
    "bound hem": edges.bound,
    "bound edge": edges.bound,
    "casing": hem.scenes,
}


def pictures(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    """The strip's pictures, at `scale` paper millimetres for each of cloth; those that show nothing new are joined."""
    scenes = _SCENES.get(section.construction, plain.scenes)
    joined: list[Picture] = []
    for picture in scenes(section, scale, longest):
        if joined and _shows_nothing_new(joined[-1], picture):
            joined[-1] = Picture(joined[-1].scene, joined[-1].stages + picture.stages)
        else:
            joined.append(picture)
    return joined


def _shows_nothing_new(before: Picture, picture: Picture) -> bool:
    old, new = before.scene, picture.scene
    same = (old.layers, old.stitches, old.loops) == (new.layers, new.stitches, new.loops)
    return same and not new.measures and not new.arrows
