"""The poses of a seam: its layers together, laid to one side, laid open, turned right side out.

A pose turns the state of a seam into a scene. Widths are paper millimetres, exact along x; the pitch between layers and
the rounds of folds are diagrammatic. Layer 0 is the upper one under the needle.
"""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import Beat
from booklet.draw.cloth import Pen
from booklet.draw.ink import millimetres, onward_length, points
from booklet.draw.letters import cut, fitted, width
from booklet.draw.scene import Layer, Loop, Maker, Measure, Name, Stitch
from booklet.length import Length, spell
from booklet.plan.plan import Section, Stage

# How far from an edge or fold is a row "close to" it, when no number is given? 1/16 in. Common practice, no source.
CLOSE = Fraction(254, 160)
# How far from the seam is understitching, when no number is given? About 1/8 in.
# Source: Goodheart-Willcox, Apparel: Design, Textiles & Construction (2012), p. 453.
UNDERSTITCHED = Fraction(254, 80)
# How wide is an overlocked or zigzagged edge, when no number is given? 1/4 in (6 mm). Oklahoma Coop. Ext. 4-H No. 801.
OVERCAST = Fraction(254, 40)

# How deep does a clean-finished allowance lie? In pitches: deep enough for its turned edge. Diagrammatic.
CLEAN_LEVEL = 1.6


class Seam:
    """What is known of a seam at one moment, and the paper it is drawn on."""

    def __init__(self, section: Section, scale: Fraction, longest: float) -> None:
        self.section = section
        self.scale = scale
        self.sides = section.sides if len(section.sides) > 1 else (*section.sides, *section.sides)
        self.count = len(self.sides)
        stitched = next((stage for stage in section.stages if stage.op == "stitch" and stage.measures), None)
        self.widths = [self.paper((stitched.measures if stitched else (section.allowance,))[0])] * self.count
        self.cut_off: dict[int, float] = {}
        self.wrong_sides = False
        self.rows: list[float] = []
        self.topstitches: list[float] = []
        self.understitch: tuple[int, float] | None = None
        self.finish = ""
        self.pitch = millimetres("cloth", "pitch")
        self.beyond = millimetres("stitch", "beyond")
        self.past = millimetres("cloth", "past")
        self.longest = longest
        self.alike = len({side.lower() for side in self.sides}) == 1
        self.names = tuple(fitted(side, longest) for side in self.sides)
        if self.alike:  # a piece sewn to itself is named once, and once it is opened out no longer
            self.names = (self.names[0], *[""] * (self.count - 1))
        self.tail = max(millimetres("cloth", "tail"), width(self.names[-1]) + 1.5 - onward_length())
        self.open = any(stage.op == "press" and stage.manner == "open" for stage in section.stages)

    # Numbers

    def paper(self, length: Length | Fraction) -> float:
        return float((length if isinstance(length, Fraction) else length.millimetres) * self.scale)

    def given(self, stage: Stage, otherwise: Fraction) -> float:
        """The stage's own number, or this many millimetres of cloth."""
        return self.paper(stage.measures[0] if stage.measures else otherwise)

    def side(self, manner: str, otherwise: int) -> int:
        """Which layer `toward X` speaks of."""
        words = " ".join(manner.lower().removeprefix("toward").split())
        for index, side in enumerate(self.sides):
            if words and words == " ".join(side.lower().split()):
                return index
        return {"up": 0, "down": self.count - 1}.get(words, otherwise)

    def cloth(self, index: int) -> str:
        cloths = self.section.cloths
        return cloths[index] if index < len(cloths) else "self"

    # What changes

    def narrow(self, stage: Stage, only: int | None = None) -> None:
        """Trim or grade: what is left of each layer. `only`: the one layer that is trimmed."""
        self.cut_off = {}
        for index in range(self.count):
            if not stage.measures or (only is not None and index != only):
                continue
            left = self.paper(stage.measures[min(index, len(stage.measures) - 1)])
            self.cut_off[index] = self.widths[index]
            self.widths[index] = left

    # Poses

    def together(self, maker: Maker, *, named: bool) -> None:
        """One on the other as they lie under the needle, cut edges to the right."""
        for index in range(self.count):
            y = index * self.pitch
            pen = Pen(-self.tail, y, 1).to(self.widths[index])
            maker.layers.append(Layer(pen.path(), self.cloth(index), self.face_together(index)))
            if index in self.cut_off:
                maker.ghosts.append(Pen(self.widths[index] + 0.9, y, 1).to(self.cut_off[index]).path())
        for x in (0.0, *self.rows):
            maker.stitches.append(self.stroke(x, 0, self.count - 1))
        if named:
            left = -self.tail - onward_length()
            self.name_top_and_bottom(maker, left, self.count - 1)
            middles = range(1, self.count - 1)
            self.name_beside(maker, left - 1, "end", {index: index * self.pitch for index in middles})

    def face_together(self, index: int) -> int:
        return -self.face(index) if self.wrong_sides else self.face(index)

    def face(self, index: int) -> int:
        """Right sides together: the first down, the others up to it; the back of a doubled layer down again."""
        return -1 if index == 0 or index in self.section.backs else 1

    def laid(self, maker: Maker, near: int) -> None:
        """Opened out flat, right sides up, the allowances under side `near`, which is drawn to the right."""
        far = self.count - 1 if near != self.count - 1 else 0
        middles = [index for index in range(self.count) if index not in (near, far)]
        middles.sort(key=lambda index: abs(index - far))
        over = -1 if far == 0 else 1  # what was uppermost lies lowest: all has been turned over
        levels = self.count
        reach = self.reach(near, far, max(self.widths) + self.past, self.lead_length(levels))
        lap = Pen(reach, 0, -1).to(0).fold(self.pitch).to(self.widths[near]).path()
        maker.layers.append(Layer(lap, self.cloth(near), -1))
        under = self.lead(levels, len(middles)).to(self.widths[far]).path()
        maker.layers.append(Layer(under, self.cloth(far), self.face(far) * over))
        for order, index in enumerate(middles, start=1):
            beside = self.lead(levels, len(middles)).to(self.widths[index]).path().beside(order * self.pitch)
            maker.layers.append(Layer(beside, self.cloth(index), self.face(index) * over))
        maker.stitches.append(self.stroke(0, 1, levels))
        if not middles:
            self.name_both(maker, near, far, reach, self.lead_length(levels))
            return
        left = -self.lead_length(levels) - onward_length()
        self.name(maker, near, reach + onward_length(), 0, "end", -1)
        lying = {index: -order * self.pitch for order, index in reversed(list(enumerate(middles, start=1)))}
        self.name_beside(maker, left - 1, "end", {**lying, far: 0.0})

    def lead(self, levels: int, beside: int = 0) -> Pen:
        """The far side's layer, from the left at the top down to the lowest level just before the seam.

        beside: how many layers lie on it.
        """
        room = (beside + 0.6) * self.pitch if beside else 0
        return Pen(-self.lead_length(levels), 0, 1).to(-0.7 - levels * self.pitch).step(levels * self.pitch, room)

    def lead_length(self, levels: int) -> float:
        return 0.7 + levels * self.pitch + self.past + 1.2

    def spread(self, maker: Maker) -> None:
        """Opened out flat, right sides up, one allowance to each side."""
        middle = millimetres("cloth", "band") + points("cloth", "line") / 2 + 0.06
        first, last = 0, self.count - 1
        reach = max(self.widths) + self.past
        reach = max(reach, (width(self.names[first]) + width(self.names[last]) + 5) / 2 - onward_length())
        drop = self.pitch * (CLEAN_LEVEL if self.finish == "clean" else 1)
        for index, across in ((first, 1), (last, -1)):
            pen = Pen(-reach, 0, 1).fold_at(-middle, drop)
            if self.finish == "clean":
                self.turn_in(maker, pen, self.widths[index], across)
            else:
                pen.to(-self.widths[index])
            maker.layers.append(Layer(pen.path().mirrored(across, 1), self.cloth(index), across))
        maker.stitches.append(Stitch((-middle - self.beyond, drop / 2), (middle + self.beyond, drop / 2)))
        self.name_both(maker, last, first, reach, reach)

    def turn_in(self, maker: Maker, pen: Pen, wide: float, across: int) -> None:
        """A clean finish: the cut edge turned to the wrong side and stitched close to the fold."""
        turn = min(self.paper(OVERCAST), wide * 0.45)
        pen.fold_at(turn - wide, -1.15).to(2 * turn - wide)
        x = (turn - wide + self.paper(CLOSE)) * across
        y = CLEAN_LEVEL * self.pitch
        maker.stitches.append(Stitch((x, y - 1.15 - self.beyond), (x, y + self.beyond)))

    def turned(self, maker: Maker, *, inside_out: bool = False, inwards: float = 0) -> None:
        """Folded along the seam, the first layer and the last outermost, every allowance between them.

        inside_out: the right sides face each other, as in a French seam before its last pass. inwards: how far from the
        fold the outermost measure below reaches; the lower name stands to its left.
        """
        half = self.pitch / 2
        last = self.count - 1
        bottom = self.count + 1
        back = max(max(self.widths) + half, *self.topstitches, inwards) + max(
            self.past, millimetres("cloth", "tail") - 1
        )
        back = max(back, inwards + max(map(width, self.names)) + 1.5 - onward_length())
        face = -1 if inside_out else 1
        top = Pen(-back, 0, 1).fold_at(0, self.pitch).to(-half - self.widths[0])
        low = Pen(-back, bottom * self.pitch, 1).fold_at(0, -self.pitch).to(-half - self.widths[last])
        maker.layers.append(Layer(top.path(), self.cloth(0), face))
        maker.layers.append(Layer(low.path(), self.cloth(last), -face))
        out_there = self.tail + onward_length() + 1
        self.name_beside(maker, out_there, "start", {index: (index + 1) * self.pitch for index in range(1, last)})
        for index in range(1, last):
            out = Pen(-half - self.widths[index], (index + 1) * self.pitch, 1).to(self.tail)
            maker.layers.append(Layer(out.path(), self.cloth(index), self.face(index), (False, True)))
        maker.stitches.append(self.stroke(-half, 1, self.count))
        self.name_top_and_bottom(maker, -back - onward_length(), bottom)

    # Marks

    def stroke(self, x: float, top: int, bottom: int) -> Stitch:
        """A row of stitching through the layers at levels `top` to `bottom`."""
        return Stitch((x, top * self.pitch - self.beyond), (x, bottom * self.pitch + self.beyond))

    def overcast(self, maker: Maker, edge: float, top: int, bottom: int, wide: float | None = None) -> None:
        """The thread round the cut edge of the layers at these levels; the needle goes in nearer the seam at x 0."""
        if self.finish == "bind":
            self.bind(maker, edge, top, bottom)
        if self.finish not in ("overlock", "zigzag"):
            return
        usual = min(self.paper(OVERCAST) * (1 if self.finish == "overlock" else Fraction(1, 2)), abs(edge) * 0.55)
        wide = usual if wide is None else wide
        way = 1 if edge > 0 else -1
        off = 1.0
        maker.loops.append(
            Loop(edge - way * wide, edge, float(top * self.pitch - off), float(bottom * self.pitch + off))
        )

    def reach(self, right: int, left: int, least: float, left_reach: float) -> float:
        """How far the right side must reach for both names to stand over the layers, well apart."""
        names = width(self.names[left]) + width(self.names[right]) + 5.0
        return max(least, names - left_reach - 2 * onward_length())

    def bind(self, maker: Maker, edge: float, top: int, bottom: int) -> None:
        """A strip of other cloth round the cut edge, stitched through all."""
        way = 1 if edge > 0 else -1
        wide = min(self.paper(OVERCAST), abs(edge) * 0.55)
        y0, y1 = top * self.pitch - 1.1, bottom * self.pitch + 1.1
        path = Pen(abs(edge) - wide, y0, 1).to(abs(edge) - 0.3).fold(y1 - y0).to(abs(edge) - wide).path()
        maker.layers.append(Layer(path.mirrored(way, 1), "self", 0, (False, False)))
        maker.stitches.append(self.stroke(edge - way * wide * 0.8, top, bottom))

    def name(self, maker: Maker, index: int, x: float, y: float, anchor: str, side: int) -> None:
        if self.names[index]:
            maker.names.append(Name(self.names[index], x, y, anchor, side))

    def name_both(self, maker: Maker, right: int, left: int, right_reach: float, left_reach: float) -> None:
        """Over the two sides of a seam that is opened out."""
        if not self.alike:
            self.name(maker, left, -left_reach - onward_length(), 0, "start", -1)
            self.name(maker, right, right_reach + onward_length(), 0, "end", -1)

    def name_top_and_bottom(self, maker: Maker, left: float, bottom: int) -> None:
        self.name(maker, 0, left, 0, "start", -1)
        self.name(maker, self.count - 1, left, bottom * self.pitch, "start", 1)

    def name_beside(self, maker: Maker, x: float, anchor: str, levels: dict[int, float]) -> None:
        """At the ends of layers one over the other, each on one line, moved apart as far as words need."""
        if not levels or self.alike:
            return
        middle = sum(levels.values()) / len(levels)
        for order, index in enumerate(levels):
            apart = max(self.pitch, 2.65) * (order - (len(levels) - 1) / 2)
            words = self.names[index].replace("\n", " ")
            maker.names.append(Name(cut(words, self.longest), x, middle + apart, anchor, 0))

    def press_arrow(self, maker: Maker, start: float, level: float, way: int = 1) -> None:
        y = level * self.pitch + self.beyond + 1.1
        maker.arrows.append(Pen(start * way, y, way).to((start + millimetres("arrow", "length")) * way).path())

    def hook(self, maker: Maker, x: float, top: float, bottom: float) -> None:
        """An arrow round a fold at x, from the upper level to the lower."""
        radius = (bottom - top) * self.pitch / 2 + 1.45
        middle = (top + bottom) * self.pitch / 2
        start = x - self.pitch / 2 if bottom - top < 2 else x - radius + 2.4
        path = Pen(start, middle - radius, 1).fold(2 * radius).path()
        maker.arrows.append(path)


def pair_of(section: Section) -> Section:
    """With its outermost sides alone."""
    cloths = (*section.cloths[:1], *section.cloths[-1:])
    return section._replace(sides=(section.sides[0], section.sides[-1]), cloths=cloths)


def words(length: Length) -> str:
    return spell(length).typeset


def measures(beat: Beat, *ops: str) -> list[Length]:
    return [length for stage in beat.of(*ops) for length in stage.measures[:1]]


def trim_measures(seam: Seam, beat: Beat, maker: Maker, only: int | None = None) -> None:
    """What is left after trimming or grading, beside its layer, cut edges to the right of x 0."""
    for stage in beat.of("trim", "grade"):
        if len(stage.measures) > 1 and only is None:
            for index, length in enumerate(stage.measures[: seam.count]):
                maker.measures.append(Measure(0, seam.paper(length), words(length), above=index < seam.count / 2))
        elif stage.measures:
            above = only is not None and only == 0
            maker.measures.append(Measure(0, seam.paper(stage.measures[0]), words(stage.measures[0]), above))
