"""Flat felled and mock felled seams: the under allowance trimmed, the other laid over it and stitched down."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.scene import Layer, Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLOSE, Seam, measures, trim_measures, words
from booklet.length import Length
from booklet.plan.plan import Section


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    """The layer trimmed is the one towards which both are pressed: it lies under the other."""
    pair = section._replace(
        sides=(section.sides[0], section.sides[-1]), cloths=(*section.cloths[:1], *section.cloths[-1:])
    )
    seam = Seam(pair, scale, longest)
    pressed = next((stage.manner for stage in section.stages if stage.op == "press"), "")
    near = seam.side(pressed, 1)
    fold = _width(section)
    lies = "together"
    found: list[Picture] = []
    for beat in beats(section.stages, {"cut": ("lay",), "fold": (), "lay": ("cut", "fold")}):
        seam.cut_off = {}
        for stage in beat.stages:
            if stage.op == "stitch":
                seam.wrong_sides = "wrong" in stage.manner
            elif stage.op in ("trim", "grade"):
                seam.narrow(stage, only=near if len(stage.measures) < 2 else None)
            elif stage.op == "press" and stage.manner not in ("", "as sewn", "flat"):
                lies = "laid" if lies == "together" else lies
            elif stage.op == "finish":
                seam.finish = stage.manner
            elif stage.op == "fold":
                lies = "felled"
            elif stage.op == "topstitch":
                lies = "felled" if section.construction == "flat felled" else "laid"
                row = seam.given(stage, CLOSE)
                seam.topstitches.append(
                    seam.paper(fold) - seam.paper(CLOSE) if _is_width(section, stage.measures) else row
                )
        found.append(Picture(_picture(seam, beat, lies, near, fold, first=not found), beat.stages))
    return found


def _width(section: Section) -> Length:
    """From the seam to the felled fold: the fold's own number, else the topstitching's, else half the allowance."""
    for op in ("fold", "topstitch"):
        for stage in section.stages:
            if stage.op == op and stage.measures:
                return stage.measures[0]
    return section.allowance * Fraction(1, 2)


def _is_width(section: Section, lengths: tuple[Length, ...]) -> bool:
    """In a flat felled seam a row with the fold's own number, or with none, runs close to the fold."""
    return section.construction == "flat felled" and (not lengths or lengths[0] == _width(section))


def _picture(seam: Seam, beat: Beat, lies: str, near: int, fold: Length, *, first: bool) -> Scene:
    maker = Maker()
    if lies == "together":
        seam.together(maker, named=first)
        for length in measures(beat, "stitch"):
            maker.measures.append(Measure(0, seam.paper(length), words(length), above=False))
        trim_measures(seam, beat, maker, near)
        return maker.scene()
    levels = 2
    if lies == "felled":
        levels = 3
        _felled(seam, maker, near, seam.paper(fold))
        if beat.of("fold"):
            maker.measures.append(Measure(0, seam.paper(fold), words(fold)))
            seam.hook(maker, seam.paper(fold), 1, 3)
    else:
        seam.laid(maker, near)
        trim_measures(seam, beat, maker)
        if near in seam.cut_off:
            maker.ghosts.append(Pen(seam.widths[near] + 0.9, seam.pitch, 1).to(seam.cut_off[near]).path())
        seam.overcast(maker, seam.widths[1 - near], 2, 2)
        if beat.of("press"):
            seam.press_arrow(maker, 1.8, 2)
    for x in seam.topstitches:
        maker.stitches.append(seam.stroke(x, 0, levels))
    if not (lies == "felled" and beat.of("fold")) or len(seam.topstitches) > 1:
        for length in measures(beat, "topstitch"):
            end = seam.paper(length)
            maker.measures.append(Measure(0, end, words(length), above=lies != "felled" or length != fold))
    return _over(seam, maker, near)


def _felled(seam: Seam, maker: Maker, near: int, fold: float) -> None:
    """The trimmed allowance at level 2; the other passes under it and is folded round it, to come back at level 1."""
    pitch = seam.pitch
    reach = seam.reach(near, 1 - near, max(fold, *seam.widths) + seam.past, seam.lead_length(3))
    lap = Pen(reach, 0, -1).to(0).fold(2 * pitch).to(seam.widths[near])
    under = seam.lead(3)
    over = seam.widths[1 - near] - fold
    if over > 0:
        under.fold_at(fold, -2 * pitch).to(max(fold - over, 0.3))
    else:
        under.to(seam.widths[1 - near])
    maker.layers.append(Layer(lap.path(), seam.cloth(near), -1))
    maker.layers.append(Layer(under.path(), seam.cloth(1 - near), 1))
    maker.stitches.append(seam.stroke(0, 2, 3))
    seam.name_both(maker, near, 1 - near, reach, seam.lead_length(3))


def _over(seam: Seam, maker: Maker, near: int) -> Scene:
    """Side 0 to the left; allowances on the right side, above, when the wrong sides were sewn together."""
    if seam.wrong_sides:
        maker.layers = [layer._replace(face=-layer.face) for layer in maker.layers]
    return maker.scene().mirrored(-1 if near == 0 else 1, -1 if seam.wrong_sides else 1)
