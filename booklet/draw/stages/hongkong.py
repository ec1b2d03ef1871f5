"""Hong Kong seam: each allowance with a strip of its own round its edge, caught down in the ditch; it lies open."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat, beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import millimetres, points
from booklet.draw.letters import width as wide
from booklet.draw.scene import Layer, Maker, Measure, Scene, Stitch
from booklet.draw.stages.bound import BEYOND, OVER
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import Seam, measures, pair_of, words
from booklet.plan.plan import Section

# How far does the strip's hidden edge reach past the ditch, so that the row catches it? Diagrammatic, on paper.
CAUGHT = 1.8


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(pair_of(section), scale, longest)
    width: float | None = None
    found: list[Picture] = []
    for beat in beats(section.stages):
        for stage in beat.of("bind"):
            width = seam.given(stage, Fraction(254, 80))
        maker = Maker()
        if width is None:
            seam.together(maker, named=not found)
            maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
        found.append(Picture(maker.scene() if width is None else _open(seam, beat, width), beat.stages))
    return found


def _open(seam: Seam, beat: Beat, width: float) -> Scene:
    """Both allowances open under the cloth, right side out; the strips' hidden edges lie between."""
    maker = Maker()
    middle = millimetres("cloth", "band") + points("cloth", "line") / 2 + 0.06
    level = 2.3 * seam.pitch
    reach = seam.widths[0] + seam.past
    reach = max(reach, (wide(seam.names[0]) + wide(seam.names[1]) + 5) / 2)
    for index, across in ((0, 1), (1, -1)):
        edge = seam.widths[index]
        pen = Pen(-reach, 0, 1).fold_at(-middle, level).to(-edge)
        maker.layers.append(Layer(pen.path().mirrored(across, 1), seam.cloth(index), across))
        row, outer = edge - width, edge + BEYOND
        strip = (
            Pen(-edge, level + OVER, 1)
            .fold_at(0.45 * OVER - row, OVER)
            .fold_at(-outer, -3 * OVER)
            .to(CAUGHT - row + 0.3)
        )
        maker.layers.append(Layer(strip.path().mirrored(across, 1), "self", across, (False, False)))
        for x, low in ((row, level + OVER), (row - 0.45 * OVER - 0.75, level)):
            ends = (x * -across, level - seam.beyond), (x * -across, low + seam.beyond)
            if low == level:
                ends = (x * -across, level - OVER - seam.beyond), (x * -across, level + seam.beyond)
            maker.stitches.append(Stitch(*ends))
        for length in measures(beat, "bind") if index else ():
            maker.measures.append(Measure(row, edge, words(length)))
    maker.stitches.append(Stitch((-middle - seam.beyond, level / 2), (middle + seam.beyond, level / 2)))
    seam.name_both(maker, 1, 0, reach, reach)
    if beat.of("press"):
        low = level / seam.pitch + 2.2 * OVER / seam.pitch
        for way in (1, -1):
            seam.press_arrow(maker, 1.2, low - 1.4, way)
    return maker.scene()
