"""Hems and casings: the edge turned up once or twice and stitched along the fold. The edge is to the right."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.beats import beats
from booklet.draw.cloth import Pen
from booklet.draw.ink import onward_length, points
from booklet.draw.scene import Layer, Maker, Measure, Name, Scene, Stitch
from booklet.draw.stages.picture import Picture
from booklet.draw.stages.seam import CLOSE, Seam, words
from booklet.length import Length
from booklet.plan.plan import Section, Stage


def scenes(section: Section, scale: Fraction, longest: float) -> list[Picture]:
    """A fold stage with two numbers is two folds."""
    stages = [one for stage in section.stages for one in _one_by_one(stage)]
    hem = Hem(section, scale, longest)
    found: list[Picture] = []
    for beat in beats(tuple(stages)):
        hem.new = []
        for stage in beat.stages:
            hem.do(stage)
        found.append(Picture(hem.scene(named=not found), beat.stages))
    return found


def _one_by_one(stage: Stage) -> list[Stage]:
    if stage.op != "fold" or not stage.measures:
        return [stage]
    return [stage._replace(measures=(length,)) for length in stage.measures]


class Hem:
    """What is turned up so far, and the rows in it."""

    def __init__(self, section: Section, scale: Fraction, longest: float) -> None:
        self.seam = Seam(section, scale, longest)
        self.allowance = section.allowance
        self.name = self.seam.names[0]
        self.turns: list[Length] = []
        self.rows: list[tuple[float, bool]] = []
        self.new: list[tuple[str, Length | None]] = []
        turns = [length for stage in section.stages if stage.op == "fold" for length in stage.measures]
        self.reach = self.seam.paper(max(turns, default=self.allowance)) + self.seam.past

    def do(self, stage: Stage) -> None:
        if stage.op == "fold":
            length = (*stage.measures, self.allowance)[0]
            self.turns.append(length)
            self.new.append(("fold", length))
        elif stage.op == "finish":
            self.seam.finish = stage.manner
            self.new.append(("finish", None))
        elif stage.op in ("stitch fold", "topstitch", "stitch"):
            self.row(stage)

    def row(self, stage: Stage) -> None:
        """A number less than half of the turn-up is counted from its inner edge, else from the garment's edge."""
        depth = self.seam.paper((self.turns or [self.allowance])[-1])
        distance = self.seam.given(stage, CLOSE)
        if not stage.measures:
            distance = min(distance, 0.4 * depth)  # of a narrow roll a row close to the fold is in its middle
        inner = distance < depth / 2 and stage.op != "topstitch"
        self.rows.append((-depth + distance if inner else -distance, inner))
        for length in stage.measures[:1]:
            self.new.append(("inner" if inner else "outer", length))

    def row_at(self, x: float, levels: int) -> Stitch:
        """A blind row comes up into the outer cloth and not through it."""
        row = self.seam.stroke(x, 0, levels)
        return row._replace(start=(x, 0.0)) if self.seam.section.construction == "blind hem" else row

    def scene(self, *, named: bool) -> Scene:
        maker = Maker()
        seam = self.seam
        if not self.turns:
            maker.layers.append(Layer(Pen(-self.reach, 0, 1).to(0).path(), seam.cloth(0), 1))
            seam.overcast(maker, 0.001, 0, 0, min(seam.paper(Fraction(254, 40)), 4.0))
            levels = 0
        elif len(self.turns) == 1:
            levels = self.once(maker)
        else:
            levels = self.twice(maker)
        depth = seam.paper(self.turns[-1]) if self.turns else 0.0
        maker.stitches += [self.row_at(x, levels) for x, _ in self.rows]
        if named:
            maker.names.append(Name(self.name, -self.reach - onward_length(), 0, "start", -1))
        for kind, length in self.new:
            if length is None:
                continue
            if kind == "fold" and length is self.turns[-1]:
                maker.measures.append(Measure(-depth, 0, words(length)))
            elif kind == "inner":
                maker.measures.append(Measure(-depth, -depth + seam.paper(length), words(length), above=True))
            elif kind == "outer":
                maker.measures.append(Measure(-seam.paper(length), 0, words(length), above=True))
        if any(kind == "fold" for kind, _ in self.new):
            seam.hook(maker, self.outside if levels > 1 else 0.0, 0, levels)
        return maker.scene()

    @property
    def outside(self) -> float:
        """Where the outermost point of a twice-turned hem's fold stands: its inner face is the measured edge."""
        return points("cloth", "line") / 2 + 0.2

    def once(self, maker: Maker) -> int:
        seam = self.seam
        depth = seam.paper(self.turns[0])
        path = Pen(-self.reach, 0, 1).fold_at(0, seam.pitch).to(-depth).path()
        maker.layers.append(Layer(path, seam.cloth(0), 1))
        seam.overcast(maker, -depth, 1, 1)
        return 1

    def twice(self, maker: Maker) -> int:
        """The cut edge lies between, at the middle level."""
        seam = self.seam
        first, depth = seam.paper(self.turns[0]), seam.paper(self.turns[-1])
        path = Pen(-self.reach, 0, 1).fold_at(self.outside, 2 * seam.pitch).fold_at(-depth, -seam.pitch)
        maker.layers.append(Layer(path.to(-depth + first).path(), seam.cloth(0), 1))
        return 2
