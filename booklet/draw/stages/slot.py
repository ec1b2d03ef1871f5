"""Slot seam: basted, pressed open, a strip laid under it and topstitched on both sides; the basting taken out."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import millimetres, points
from booklet.draw.scene import Layer, Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.plain import spread
from booklet.draw.stages.seam import CLOSE, Seam, measures, pair_of, words
from booklet.plan.plan import Section


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(pair_of(section), scale, longest)
    lies = "together"
    rows: list[float] = []
    found: list[Picture] = []
    for beat in beats(section.stages, {"after": ("after",)}):
        for stage in beat.stages:
            if stage.op == "press" and stage.manner == "open":
                lies = "open"
            elif stage.op == "topstitch":
                rows.append(seam.given(stage, CLOSE))
        found.append(Picture(_picture(seam, beat, lies, rows, first=not found), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, lies: str, rows: list[float], *, first: bool) -> Scene:
    maker = Maker()
    if lies == "together":
        seam.together(maker, named=first)
        maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
        return maker.scene()
    spread(seam, beat._replace(stages=tuple(beat.of("press"))), maker)
    if rows:
        maker.stitches.clear()  # the basting is out
        half = max(seam.widths)
        strip = Pen(-half, 2 * seam.pitch, 1).to(half).path()
        maker.layers.append(Layer(strip, "self", 1, (False, False)))
        fold = millimetres("cloth", "band") + points("cloth", "line") / 2 + 0.06
        maker.stitches += [seam.stroke((fold + x) * way, 0, 2) for x in rows for way in (1, -1)]
        for length in measures(beat, "topstitch"):
            maker.measures.append(Measure(fold, fold + seam.paper(length), words(length), above=True))
    return maker.scene()
