"""Plain, overlocked and enclosed seams: stitched; perhaps trimmed; then laid open, to one side, or turned."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.scene import Maker, Measure, Scene
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLEAN_LEVEL, CLOSE, UNDERSTITCHED, Seam, measures, trim_measures, words
from booklet.plan.plan import Section, Stage


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(section, scale, longest)
    around = section.construction == "overlocked"
    if around:
        seam.finish = "overlock"
    lies = "together"
    near = seam.count - 1
    found: list[Picture] = []
    for beat in beats(section.stages):
        seam.cut_off = {}
        for stage in beat.stages:
            if stage.op in ("trim", "grade"):
                seam.narrow(stage)
            elif stage.op == "finish":
                seam.finish = stage.manner
            elif stage.op == "turn":
                lies = "turned"
            elif stage.op == "stitch":
                seam.wrong_sides = "wrong" in stage.manner
                more_rows(seam, stage)
            elif stage.op == "press":
                near = seam.side(stage.manner, near)
                if lies != "turned":
                    lies = pose_of(stage.manner, lies)
            elif stage.op == "understitch":
                near = seam.side(stage.manner, near)
                lies = "laid" if lies == "together" else lies
                seam.understitch = (near, seam.given(stage, UNDERSTITCHED))
            elif stage.op == "topstitch":
                lies = "laid" if lies == "together" else lies
                seam.topstitches.append(seam.given(stage, CLOSE))
        found.append(Picture(picture(seam, beat, lies, near, around=around, first=not found), beat.stages))
    return found


def pose_of(manner: str, before: str) -> str:
    """How the layers lie once they are pressed so."""
    if manner == "open":
        return "spread"
    return "laid" if manner.startswith("toward") or manner in ("up", "down") else before


def more_rows(seam: Seam, stage: Stage) -> None:
    """A second row in the allowance, at another distance from the edge."""
    if stage.measures and seam.paper(stage.measures[0]) != seam.widths[0]:
        seam.rows.append(seam.widths[0] - seam.paper(stage.measures[0]))


def picture(seam: Seam, beat: Beat, lies: str, near: int, *, around: bool, first: bool) -> Scene:
    maker = Maker()
    if lies == "spread":
        spread(seam, beat, maker)
        return maker.scene()
    if lies == "laid":
        return laid(seam, beat, maker, near, around=around)
    if lies == "turned":
        turned(seam, beat, maker)
        return maker.scene()
    seam.together(maker, named=first)
    for stage in beat.of("stitch")[:1]:
        for length in stage.measures[:1] or (seam.section.allowance,):
            maker.measures.append(Measure(0, seam.paper(length), words(length)))
    trim_measures(seam, beat, maker)
    edge = max(seam.widths)
    if around or not seam.open:
        seam.overcast(maker, edge, 0, seam.count - 1, edge if around else None)
    else:
        for index in range(seam.count):
            seam.overcast(maker, seam.widths[index], index, index)
    return maker.scene()


def spread(seam: Seam, beat: Beat, maker: Maker) -> None:
    seam.spread(maker)
    trim_measures(seam, beat, maker)
    seam.overcast(maker, seam.widths[-1], 1, 1)
    seam.overcast(maker, -seam.widths[0], 1, 1)
    for x in seam.topstitches:
        maker.stitches += [seam.stroke(x, 0, 1), seam.stroke(-x, 0, 1)]
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    if beat.of("press"):
        level = CLEAN_LEVEL if seam.finish == "clean" else 1
        seam.press_arrow(maker, 1.8, level)
        seam.press_arrow(maker, 1.8, level, way=-1)


def laid(seam: Seam, beat: Beat, maker: Maker, near: int, *, around: bool) -> Scene:
    levels = seam.count
    seam.laid(maker, near)
    trim_measures(seam, beat, maker)
    edge = max(seam.widths)
    seam.overcast(maker, edge, 1, levels, edge if around else None)
    for x in seam.topstitches:
        maker.stitches.append(seam.stroke(x, 0, levels))
    if seam.understitch:
        maker.stitches.append(seam.stroke(seam.understitch[1], 0, levels))
    for length in measures(beat, "topstitch", "understitch"):
        maker.measures.append(Measure(0, seam.paper(length), words(length), above=True))
    if beat.of("press"):
        seam.press_arrow(maker, 1.8, levels)
    down = -1 if seam.wrong_sides else 1
    if seam.wrong_sides:
        maker.layers = [layer._replace(face=-layer.face) for layer in maker.layers]
    return maker.scene().mirrored(-1 if near == 0 else 1, down)


def turned(seam: Seam, beat: Beat, maker: Maker) -> None:
    half = seam.pitch / 2
    hooked = 2.6 if beat.of("turn") and seam.count == 2 else 0.0
    seam.turned(maker, inwards=max((hooked, *(half + seam.paper(length) for length in measures(beat, "understitch")))))
    bottom = seam.count + 1
    for x in seam.topstitches:
        maker.stitches.append(seam.stroke(-x, 0, bottom))
    if seam.understitch:
        facing, distance = seam.understitch
        levels = (0, bottom - 1) if facing == 0 else (1, bottom)
        maker.stitches.append(seam.stroke(-half - distance, *levels))
    for length in measures(beat, "topstitch"):
        maker.measures.append(Measure(-seam.paper(length), 0, words(length), above=True))
    for length in measures(beat, "understitch"):
        maker.measures.append(Measure(-half - seam.paper(length), -half, words(length)))
    if beat.of("turn") and seam.count == 2:
        seam.hook(maker, 0, 0, bottom)
