"""Hems that turn nothing of the garment up: a facing sewn on and turned, a binding round it. Edge to the right."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import onward_length
from booklet.draw.scene import Layer, Maker, Measure, Name, Scene
from booklet.draw.stages.bound import wrap
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLOSE, OVERCAST, Seam, measures, words
from booklet.plan.plan import Section

# How far does a facing reach past the allowances, and how much of it is turned under at its free edge? Diagrammatic,
# in millimetres on paper.
PAST = 5.2
UNDER = 3.2


def bound(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    """Where the binding's width is not said, it is that of its maker; it is drawn as wide as an overlocked edge."""
    seam = Seam(section, scale, longest)
    maker = Maker()
    reach = seam.widths[0] + seam.past
    maker.layers.append(Layer(Pen(-reach, 0, 1).to(0).path(), seam.cloth(0), 1))
    given = [stage for stage in section.stages if stage.op == "bind" and stage.measures]
    width = seam.given(given[0], OVERCAST) if given else seam.paper(OVERCAST)
    inner, outer = wrap(seam, maker, (0, width), 0, 0)
    maker.measures += [Measure(inner, outer, words(stage.measures[0])) for stage in given]
    maker.names.append(Name(seam.names[0], -reach - onward_length(), 0, "start", -1))
    return [Picture(maker.scene(), section.stages)]


def faced(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    seam = Seam(section, scale, longest)
    lies, held = "together", False
    found: list[Picture] = []
    for beat in beats(section.stages):
        lies = "turned" if beat.of("turn") else lies
        held = held or bool(beat.of("stitch fold"))
        if lies == "turned":
            found.append(Picture(_turned(seam, held=held), beat.stages))
            continue
        maker = Maker()
        seam.together(maker, named=True)
        maker.measures += [Measure(0, seam.paper(length), words(length)) for length in measures(beat, "stitch")]
        found.append(Picture(maker.scene(), beat.stages))
    return found


def _turned(seam: Seam, *, held: bool) -> Scene:
    """The facing under the garment, both allowances between, its free edge turned under and stitched down."""
    maker = Maker()
    pitch, half = seam.pitch, seam.pitch / 2
    inner = max(seam.widths) + half + PAST
    back = inner + seam.past
    top = Pen(-back, 0, 1).fold_at(0, pitch).to(-half - seam.widths[0])
    facing = Pen(UNDER - inner, 2 * pitch, -1).fold_at(-inner, pitch).fold_at(0, -pitch).to(-half - seam.widths[1])
    maker.layers.append(Layer(top.path(), seam.cloth(0), 1))
    maker.layers.append(Layer(facing.path(), seam.cloth(1), -1, (False, False)))
    maker.stitches.append(seam.stroke(-half, 1, 2))
    if held:
        maker.stitches.append(seam.stroke(seam.paper(CLOSE) - inner, 0, 3))
    seam.hook(maker, 0, 0, 3)
    return maker.scene()
