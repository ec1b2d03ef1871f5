"""Piped seam: the piping's lip between the allowances, the row close beside the cord."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import onward_length
from booklet.draw.scene import Layer, Maker, Measure, Scene, Stitch
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.plain import pose_of
from booklet.draw.stages.seam import CLOSE, Seam, measures, pair_of, trim_measures, words
from booklet.plan.plan import Section

# How far apart lie the two layers of the lip, with the cord in their fold, and how thick is the cord? Diagrammatic,
# in millimetres on paper.
LIP = 3.0
CORD = 1.9
# How far from the cord's side of the seam does the strip's fold stand out?
OUT = 3.1


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(pair_of(section), scale, longest)
    lies, near = "together", 1
    found: list[Picture] = []
    for beat in beats(section.stages):
        seam.cut_off = {}
        for stage in beat.stages:
            if stage.op in ("trim", "grade"):
                seam.narrow(stage)
            elif stage.op == "turn":
                lies = "turned"
            elif stage.op == "press":
                near = seam.side(stage.manner, near)
                lies = pose_of(stage.manner, lies)
            elif stage.op == "topstitch":
                lies = "laid" if lies == "together" else lies
                seam.topstitches.append(seam.given(stage, CLOSE))
        found.append(Picture(_picture(seam, beat, lies, near, first=not found), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, lies: str, near: int, *, first: bool) -> Scene:
    maker = Maker()
    if lies == "together":
        _together(seam, maker, named=first)
        maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
        trim_measures(seam, beat, maker)
        return maker.scene()
    if lies == "turned":
        _turned(seam, beat, maker)
        return maker.scene()
    _laid(seam, beat, maker, near)
    return maker.scene().mirrored(-1 if near == 0 else 1, 1)


def _together(seam: Seam, maker: Maker, *, named: bool) -> None:
    """The piping between, its cord to the left of the row, cut edges even."""
    pitch, tail = seam.pitch, seam.tail + OUT
    bottom = 2 * pitch + LIP
    for index, y in ((0, 0.0), (1, bottom)):
        pen = Pen(-tail, y, 1).to(seam.widths[index])
        maker.layers.append(Layer(pen.path(), seam.cloth(index), seam.face(index)))
    piping(maker, pitch, -OUT, max(seam.widths))
    maker.stitches.append(Stitch((0, -seam.beyond), (0, bottom + seam.beyond)))
    if named:
        left = -tail - onward_length()
        seam.name(maker, 0, left, 0, "start", -1)
        seam.name(maker, 1, left, bottom, "start", 1)


def piping(maker: Maker, top: float, fold: float, edge: float) -> None:
    """The strip from its cut edges at x `edge` round the cord at x `fold`; its upper layer at y `top`."""
    way = -1 if fold < edge else 1
    strip = Pen(edge, top, way).fold_at(fold, LIP).to(edge).path()
    maker.layers.append(Layer(strip, "self", 1 if way > 0 else -1, (False, False)))
    centre = fold - way * LIP / 2
    cord = Pen(centre, top + (LIP - CORD) / 2, 1).fold(CORD).fold(-CORD).path()
    maker.layers.append(Layer(cord, "self", 0, (False, False)))


def _turned(seam: Seam, beat: Beat, maker: Maker) -> None:
    """Wrong sides together, the cord beyond the folds."""
    pitch, half = seam.pitch, seam.pitch / 2
    bottom = 4 * pitch + LIP
    back = max(max(seam.widths) + half, *seam.topstitches, 0.0) + seam.past
    top = Pen(-back, 0, 1).fold_at(0, pitch).to(-half - seam.widths[0])
    low = Pen(-back, bottom, 1).fold_at(0, -pitch).to(-half - seam.widths[1])
    maker.layers.append(Layer(top.path(), seam.cloth(0), 1))
    maker.layers.append(Layer(low.path(), seam.cloth(1), -1))
    piping(maker, 2 * pitch, OUT - half, -half - max(seam.widths))
    maker.stitches.append(Stitch((-half, pitch - seam.beyond), (-half, bottom - pitch + seam.beyond)))
    for x in seam.topstitches:
        maker.stitches.append(Stitch((-x, -seam.beyond), (-x, bottom + seam.beyond)))
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(-seam.paper(length), 0, words(length), above=True))
    seam.name(maker, 0, -back - onward_length(), 0, "start", -1)
    seam.name(maker, 1, -back - onward_length(), bottom, "start", 1)


def _laid(seam: Seam, beat: Beat, maker: Maker, near: int) -> None:
    """Opened out, the allowances and the lip under side `near`, the cord in the groove beside its fold."""
    pitch, far = seam.pitch, 1 - near
    drop = 3 * pitch + LIP
    groove = OUT + 1.4
    lead = groove + drop + seam.past
    reach = seam.reach(near, far, max(seam.widths) + seam.past, lead)
    lap = Pen(reach, 0, -1).to(0).fold(pitch).to(seam.widths[near])
    under = Pen(-lead, 0, 1).to(-groove - drop).step(drop).to(seam.widths[far])
    maker.layers.append(Layer(lap.path(), seam.cloth(near), -1))
    maker.layers.append(Layer(under.path(), seam.cloth(far), 1))
    piping(maker, 2 * pitch, -OUT, max(seam.widths))
    maker.stitches.append(Stitch((0, pitch - seam.beyond), (0, drop + seam.beyond)))
    for x in seam.topstitches:
        maker.stitches.append(Stitch((x, -seam.beyond), (x, drop + seam.beyond)))
    trim_measures(seam, beat, maker)
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    seam.name_both(maker, near, far, reach, lead)
    if beat.of("press"):
        seam.press_arrow(maker, 1.8, drop / pitch)
