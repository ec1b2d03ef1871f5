"""Mock French seam: stitched right sides together, both allowances turned in toward each other, the folds stitched."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import millimetres, onward_length
from booklet.draw.scene import Layer, Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.plain import pose_of
from booklet.draw.stages.seam import CLOSE, Seam, measures, pair_of, words
from booklet.plan.plan import Section


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(pair_of(section), scale, longest)
    turned = next((stage.measures[0] for stage in section.stages if stage.op == "fold" and stage.measures), None)
    width = seam.paper(turned) if turned else seam.widths[0] / 2
    lies, near = "together", 1
    found: list[Picture] = []
    for beat in beats(section.stages, {"stitch": ("fold",)}):
        for stage in beat.stages:
            if stage.op == "fold":
                lies = "folded"
            elif stage.op == "press":
                near = seam.side(stage.manner, near)
                lies = pose_of(stage.manner, lies)
            elif stage.op == "topstitch":
                lies = "laid"
                seam.topstitches.append(seam.given(stage, CLOSE))
        found.append(Picture(_picture(seam, beat, lies, near, width, first=not found), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, lies: str, near: int, width: float, *, first: bool) -> Scene:
    maker = Maker()
    if lies == "laid":
        _laid(seam, beat, maker, near, width)
        return maker.scene().mirrored(-1 if near == 0 else 1, 1)
    if lies == "folded":
        _folded(seam, beat, maker, width)
        return maker.scene()
    seam.together(maker, named=first)
    maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
    return maker.scene()


def _folded(seam: Seam, beat: Beat, maker: Maker, width: float) -> None:
    """Each allowance turned in: its fold the width inside its old edge, its cut edge between the two."""
    pitch, fold = seam.pitch, seam.widths[0] - width
    for index, way in ((0, 1), (1, -1)):
        level = (1 + index) * pitch
        pen = Pen(-seam.tail, level, 1).to(0.6).step(-way * pitch).fold_at(fold, way * pitch).to(fold - width)
        maker.layers.append(Layer(pen.path(), seam.cloth(index), seam.face(index)))
    row = fold - seam.paper(CLOSE)
    maker.stitches += [seam.stroke(0, 1, 2), seam.stroke(row, 0, 3)]
    for length in measures(beat, "fold"):
        maker.measures.append(Measure(fold - width, fold, words(length)))


def _laid(seam: Seam, beat: Beat, maker: Maker, near: int, width: float) -> None:
    """Opened out, the folds under side `near`, each with its cut edge inside."""
    pitch, fold = seam.pitch, seam.widths[0] - width
    reach = fold + max(seam.past, millimetres("cloth", "tail"))
    reach = seam.reach(near, 1 - near, reach, seam.lead_length(4))
    lap = Pen(reach, 0, -1).to(0).fold(pitch).fold_at(fold, pitch).to(fold - width)
    under = seam.lead(4).fold_at(fold, -pitch).to(fold - width)
    maker.layers.append(Layer(lap.path(), seam.cloth(near), -1))
    maker.layers.append(Layer(under.path(), seam.cloth(1 - near), 1))
    maker.stitches += [seam.stroke(0, 1, 4), seam.stroke(fold - seam.paper(CLOSE), 1, 4)]
    for x in seam.topstitches:
        maker.stitches.append(seam.stroke(x, 0, 4))
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    seam.name_both(maker, near, 1 - near, reach, seam.lead_length(4))
    if beat.of("press"):
        seam.press_arrow(maker, 0.6 + onward_length() / 4, 4)
