"""French seam: wrong sides together, trimmed, folded right sides together, sewn again round the cut edges."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import millimetres
from booklet.draw.scene import Layer, Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLOSE, Seam, measures, trim_measures, words
from booklet.plan.plan import Section, Stage


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    pair = section._replace(
        sides=(section.sides[0], section.sides[-1]), cloths=(*section.cloths[:1], *section.cloths[-1:])
    )
    seam = Seam(pair, scale, longest)
    seam.wrong_sides = True
    second: Stage | None = None
    lies, near, passes = "together", 1, 0
    found: list[Picture] = []
    for beat in beats(section.stages, {"stitch": ("turn", "fold", "lay")}):
        seam.cut_off = {}
        for stage in beat.stages:
            if stage.op in ("trim", "grade"):
                seam.narrow(stage)
            elif stage.op == "stitch":
                passes += 1
                second = stage if passes == 2 else second
                lies = "folded" if passes == 2 else lies
            elif stage.op in ("fold", "turn"):
                lies = "folded"
            elif stage.op == "press" and passes == 2 and stage.manner not in ("", "as sewn", "flat"):
                lies, near = "laid", seam.side(stage.manner, near)
            elif stage.op == "topstitch":
                lies = "laid"
                seam.topstitches.append(seam.given(stage, CLOSE))
        found.append(Picture(_picture(seam, beat, lies, near, second, first=not found), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, lies: str, near: int, second: Stage | None, *, first: bool) -> Scene:
    maker = Maker()
    if lies == "laid" and second:
        _laid(seam, beat, maker, near, seam.paper((*second.measures, seam.section.allowance)[0]))
        return maker.scene().mirrored(-1 if near == 0 else 1, 1)
    if lies == "folded":
        distance = (*(second.measures if second else ()), seam.section.allowance)[0]
        seam.turned(maker, inside_out=True, inwards=seam.paper(distance) if second else 0)
        if second:
            maker.stitches.append(seam.stroke(-seam.paper(distance), 0, 3))
            maker.measures.append(Measure(-seam.paper(distance), 0, words(distance)))
        if beat.of("fold", "turn"):
            seam.hook(maker, 0, 0, 3)
        return maker.scene()
    seam.together(maker, named=first)
    for length in measures(beat, "stitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length)))
    trim_measures(seam, beat, maker)
    return maker.scene()


def _laid(seam: Seam, beat: Beat, maker: Maker, near: int, fold: float) -> None:
    """Opened out, the finished seam under side `near`: the second row stands at x 0."""
    pitch, half = seam.pitch, seam.pitch / 2
    reach = fold + max(seam.past, millimetres("cloth", "tail"))
    reach = seam.reach(near, 1 - near, reach, seam.lead_length(4))
    lap = Pen(reach, 0, -1).to(0).fold(pitch).fold_at(fold, pitch).to(fold - half - seam.widths[near])
    under = seam.lead(4).fold_at(fold, -pitch).to(fold - half - seam.widths[1 - near])
    maker.layers.append(Layer(lap.path(), seam.cloth(near), -1))
    maker.layers.append(Layer(under.path(), seam.cloth(1 - near), 1))
    maker.stitches += [seam.stroke(0, 1, 4), seam.stroke(fold - half, 2, 3)]
    for x in seam.topstitches:
        maker.stitches.append(seam.stroke(x, 0, 4))
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    seam.name_both(maker, near, 1 - near, reach, seam.lead_length(4))
    if beat.of("press"):
        seam.press_arrow(maker, 0.6, 4)
