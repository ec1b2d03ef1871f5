"""Lapped seam: one side laid over the other, both right side up, its edge folded under first where a stage says so."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import onward_length
from booklet.draw.scene import Layer, Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLOSE, Seam, words
from booklet.length import Length
from booklet.plan.plan import Section


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    pair = section._replace(
        sides=(section.sides[0], section.sides[-1]), cloths=(*section.cloths[:1], *section.cloths[-1:])
    )
    seam = Seam(pair, scale, longest)
    seam.widths = [seam.paper(section.allowance)] * 2
    folded = any(stage.op == "fold" for stage in section.stages)
    lapped = False
    found: list[Picture] = []
    for beat in beats(section.stages):
        shown: list[Length] = []
        for stage in beat.stages:
            lapped = lapped or stage.op in ("stitch", "topstitch")
            if stage.op in ("stitch", "topstitch"):
                given = [length for length in stage.measures[:1] if length < section.allowance]
                shown += given
                close = CLOSE if folded else section.allowance.millimetres / 2
                seam.topstitches.append(seam.paper(given[0] if given else close))
        found.append(Picture(_picture(seam, beat, shown, folded=folded, lapped=lapped), beat.stages))
    return found


def _picture(seam: Seam, beat: Beat, shown: list[Length], *, folded: bool, lapped: bool) -> Scene:
    """The upper side's fold, or its cut edge, stands at x 0."""
    maker = Maker()
    allowance = seam.section.allowance
    lap = seam.widths[0]
    back = lap + seam.past
    pen = Pen(-back, 0, 1)
    upper = pen.fold_at(0, seam.pitch).to(-lap) if folded else pen.to(0)
    maker.layers.append(Layer(upper.path(), seam.cloth(0), 1))
    level = 2 if folded else 1
    if lapped:
        ahead = 0.9 + level * seam.pitch
        reach = ahead + 2.5 + seam.past
        under = Pen(reach, 0, -1).to(ahead).step(level * seam.pitch).to(-lap)
        maker.layers.append(Layer(under.path(), seam.cloth(1), -1))
        seam.name(maker, 1, reach + onward_length(), 0, "end", -1)
        maker.stitches += [seam.stroke(-x, 0, level) for x in seam.topstitches]
    seam.name(maker, 0, -back - onward_length(), 0, "start", -1)
    maker.measures += [Measure(-seam.paper(length), 0, words(length), above=True) for length in shown]
    if beat.of("fold") or (not folded and beat.of("stitch", "topstitch")):
        maker.measures.append(Measure(-lap, 0, words(allowance)))
    if beat.of("fold"):
        seam.hook(maker, 0, 0, 1)
    return maker.scene()
