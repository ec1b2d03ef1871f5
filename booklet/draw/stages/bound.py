"""Bound seam: stitched right sides together, then one strip round both cut edges."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.scene import Layer, Maker, Measure, Scene, Stitch
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.plain import pose_of
from booklet.draw.stages.seam import CLOSE, Seam, measures, pair_of, trim_measures, words
from booklet.plan.plan import Section

# How far over the layers does a strip lie that goes round them, and how far beyond their edge? Diagrammatic, in
# millimetres on paper.
OVER = 1.3
BEYOND = 0.9


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(pair_of(section), scale, longest)
    width: float | None = None
    lies, near = "together", 1
    found: list[Picture] = []
    for beat in beats(section.stages):
        seam.cut_off = {}
        for stage in beat.stages:
            if stage.op in ("trim", "grade"):
                seam.narrow(stage)
            elif stage.op == "bind":
                width = seam.given(stage, Fraction(254, 40))
            elif stage.op == "press":
                near = seam.side(stage.manner, near)
                lies = pose_of(stage.manner, lies)
            elif stage.op == "topstitch":
                lies = "laid"
                seam.topstitches.append(seam.given(stage, CLOSE))
        found.append(Picture(_picture(seam, beat, lies, near, width, first=not found), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, lies: str, near: int, width: float | None, *, first: bool) -> Scene:
    maker = Maker()
    top = 0.0
    if lies == "laid":
        top = 1.0 if width is None else 1.9
        _laid(seam, maker, near, top * seam.pitch)
        if beat.of("press"):
            seam.press_arrow(maker, 1.0, top + 1)
        maker.stitches += [
            Stitch((x, -seam.beyond), (x, (top + 1) * seam.pitch + seam.beyond)) for x in seam.topstitches
        ]
        for length in measures(beat, "topstitch"):
            maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    else:
        seam.together(maker, named=first)
        maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
    trim_measures(seam, beat, maker)
    if width is not None:
        edge = max(seam.widths)
        inner, outer = wrap(seam, maker, (edge, width), top * seam.pitch, (top + 1) * seam.pitch)
        for length in measures(beat, "bind"):
            maker.measures.append(Measure(inner, outer, words(length)))
    return maker.scene().mirrored(-1 if lies == "laid" and near == 0 else 1, 1)


def _laid(seam: Seam, maker: Maker, near: int, top: float) -> None:
    """Opened out, both allowances under side `near`, the upper at y `top`: so deep that the strip has room."""
    far, bottom = 1 - near, top + seam.pitch
    lead = 0.7 + bottom + seam.past + 1.2
    reach = seam.reach(near, far, max(seam.widths) + BEYOND + seam.past, lead)
    lap = Pen(reach, 0, -1).to(0).fold(top).to(seam.widths[near])
    under = Pen(-lead, 0, 1).to(-0.7 - top / 4 - bottom).step(bottom).to(seam.widths[far])
    maker.layers.append(Layer(lap.path(), seam.cloth(near), -1))
    maker.layers.append(Layer(under.path(), seam.cloth(far), 1))
    maker.stitches.append(Stitch((0, top - seam.beyond), (0, bottom + seam.beyond)))
    seam.name_both(maker, near, far, reach, lead)


def wrap(seam: Seam, maker: Maker, at: tuple[float, float], top: float, bottom: float) -> tuple[float, float]:
    """A strip round the cut edge of the layers from y `top` to y `bottom`, and its row. at: edge and strip's width.

    Gives where the strip's own edges and its fold stand.
    """
    edge, width = at
    high, low = top - OVER, bottom + OVER
    outer = edge + BEYOND
    inner = outer - width
    path = Pen(inner, high, 1).fold_at(outer, low - high).to(inner).path()
    maker.layers.append(Layer(path, "self", 1, (False, False)))
    row = inner + min(seam.paper(CLOSE), (edge - inner) / 2)
    maker.stitches.append(Stitch((row, high - seam.beyond), (row, low + seam.beyond)))
    return inner, outer
