"""Front, back and what is drafted on them: the slit facing, the armhole facings, and the neckline for the collar."""

from __future__ import annotations

import math
from typing import NamedTuple

from steps.drafting.curve import curve, solve
from steps.drafting.path import Path, Point, ahead, beside, meeting, straight
from steps.drafting.piece import Drafted, Edge, Mark
from steps.drafting.tables import Measures

SLOPE = math.radians(18)  # of both shoulders
FLARE = math.radians(3)  # of the sides from the hip down
DOWN = math.pi / 2
NECK_LEAN = math.radians(14)  # the back neckline meets the shoulder so much flatter than square, the front steeper
FRONT_WIDER = 2.5  # than a quarter of the bust, at the sides; the back is as much narrower
SEAM, SLIT, HEM = 15.875, 6.35, 25.4  # allowances: 5/8 in, 1/4 in, 1 in
ARMHOLE_NOTCH = 0.42  # how far up from the underarm, as a share of the armhole
STRAIGHT = 20.0  # below the dart the side begins straight
LOOPS = (16.0, 58.0, 100.0)  # below the neck seam, along the slit


class Cup(NamedTuple):
    """lean: of the side above the dart, outward; wider: at the bust line, than the B cup; tip: from the bust point;
    lower: how much farther down the side the dart lies."""

    lean: float
    wider: float
    intake: float
    tip: Point
    lower: float


CUPS = {
    "B": Cup(math.radians(7), 0.0, 25.0, (27.0, 0.0), 0.0),
    "D": Cup(math.radians(9), 25.4, 60.0, (24.0, 8.0), 12.0),
}
BACK_LEAN = math.radians(4)


class Body:
    """The seam lines of front and back in one size. The origin is on the fold, level with the neck ends of the
    shoulders."""

    def __init__(self, measures: Measures, size: str) -> None:
        self.size = size
        self._measures = measures
        self.neck = (self.of("neck width, half"), 0.0)
        self.tip = ahead(self.neck, SLOPE, self.of("shoulder length"))
        self.shoulder = straight(self.neck, self.tip)
        self._set_back()
        self.fronts = {"B": FrontLines(self, "B", None)}
        self.fronts["D"] = FrontLines(self, "D", self.fronts["B"])

    def of(self, row: str) -> float:
        return self._measures.of(row, self.size)

    def _set_back(self) -> None:
        depth = self.of("back neck depth")
        self.back_neckline = curve((0.0, depth), 0.0, self.neck, SLOPE - DOWN + NECK_LEAN, 0.6, 0.3)
        wide = self.of("Bust, B cup") / 4 - FRONT_WIDER
        under = (wide - self.of("bust line below underarm") * math.sin(BACK_LEAN), self.of("armhole depth"))
        self.back_armhole = armhole(self.tip, self.tip[0] - 10, under, DOWN - BACK_LEAN, 0.5)
        self.back_sleeveless = self.sleeveless(self.tip[0] - 29, under, DOWN - BACK_LEAN, 0.5)
        short, long = (depth + self.of(row) for row in ("Back length, A and B", "Back length, C"))
        dot = (self.dot_x, short - self.of("vent above short hem"))
        self.back_side = curve(under, DOWN - BACK_LEAN, dot, DOWN - FLARE)
        self.hems = {hem: self._down_to(dot, level) for hem, level in (("short", short), ("long", long))}
        self.back_dot = dot

    @property
    def dot_x(self) -> float:
        """So that the garment has its hip measure at the hip."""
        below = self.of("vent above short hem") - self.of("hip above short hem")
        return self.of("Hip") / 4 - below * math.tan(FLARE)

    def _down_to(self, dot: Point, level: float) -> tuple[float, float]:
        """How far down the flared side from the dot a hem ends that is level at the centre back, and by how much that
        end is higher than the centre: the hem is square to the side and to the fold."""

        def end(way: float) -> Point:
            return ahead(dot, DOWN - FLARE, way)

        way = solve(
            level, lambda way: end(way)[1] + end(way)[0] * math.tan(FLARE / 2), level - dot[1] - 40, level - dot[1] + 5
        )
        return way, level - end(way)[1]

    def hem(self, dot: Point, which: str) -> Path:
        """From the side to the fold."""
        way, rise = self.hems[which]
        end = ahead(dot, DOWN - FLARE, way)
        return curve(end, math.pi - FLARE, (0.0, end[1] + rise), math.pi)

    def sleeveless(self, chest: float, under: Point, side: float, level: float) -> Path:
        return armhole(ahead(self.tip, SLOPE, -20.0), chest, under, side, level)

    def inner_lines(self, dot: Point, sleeveless: Path) -> tuple[Path, Path]:
        """The cutting lines of the short hem and of the sleeveless armhole."""
        hem = beside(self.hem(dot, "short"), HEM)
        side = ahead(hem.start, hem.heading, -SEAM)
        cut = beside(sleeveless, SEAM)
        return straight(side, hem.start) + hem, _drawn_out(cut, SEAM)

    def back(self) -> Drafted:
        dot, hem = self.back_dot, self.hem(self.back_dot, "long")
        vent = straight(dot, hem.start)
        return Drafted(
            "back",
            self.size,
            "1",
            (
                Edge("neckline", self.back_neckline, SEAM),
                Edge("shoulder", self.shoulder, SEAM),
                Edge("armhole", self.back_armhole, SEAM),
                Edge("side", self.back_side, SEAM),
                Edge("vent", vent, SEAM, smooth=True),
                Edge("hem", hem, HEM, folded=True),
                Edge("fold", straight(hem.end, self.back_neckline.start), 0.0, sewn=False),
            ),
            (
                Mark("armhole", -ARMHOLE_NOTCH * self.back_armhole.length, double=True),
                Mark("side", -self.of("side notch above dot")),
            ),
            self.inner_lines(dot, self.back_sleeveless),
            (dot,),
            _grain(hem.end[1], self.tip[0]),
        )


class FrontLines:
    """The seam lines of one front. Sleeves and facings fit both: the armholes are as long as those of `like`."""

    def __init__(self, body: Body, cup: str, like: FrontLines | None) -> None:
        self.body, self.cup, shape, of = body, cup, CUPS[cup], body.of
        neck = (SLIT, of("front neck depth"))
        self.neckline = curve(neck, 0.0, body.neck, SLOPE - DOWN - NECK_LEAN, 0.5, 0.36)
        side = DOWN - shape.lean
        wide = of("Bust, B cup") / 4 + FRONT_WIDER + shape.wider
        across = wide - of("bust line below underarm") * math.sin(shape.lean)
        deep = of("armhole depth")
        chest = body.tip[0] - 15

        def hole(depth: float) -> Path:
            return armhole(body.tip, chest, (across, depth), side, 0.54)

        if like is not None:
            deep = solve(like.armhole.length, lambda depth: hole(depth).length, deep - 60, deep)
        under = (across, deep)
        self.armhole: Path = hole(deep)

        def bare(chest: float) -> Path:
            return body.sleeveless(chest, under, side, 0.54)

        bare_chest = chest - 17
        if like is not None:
            wanted = like.sleeveless.length
            bare_chest = solve(wanted, lambda chest: bare(chest).length, bare_chest - 30, bare_chest + 10)
        self.sleeveless: Path = bare(bare_chest)
        self._set_side(shape, under, side)

    def _set_side(self, shape: Cup, under: Point, heading: float) -> None:
        """The side with its dart. Sewn and pressed down, it is as long as the back's."""
        body, of = self.body, self.body.of
        upper = ahead(under, heading, of("dart below underarm") + shape.lower)
        self.point = (of("bust point, half span") + shape.tip[0], of("bust point below shoulder") + shape.tip[1])
        reach = math.dist(self.point, upper)
        angle = 2 * math.asin(shape.intake / 2 / reach)
        leg = math.atan2(upper[1] - self.point[1], upper[0] - self.point[0])
        lower = ahead(self.point, leg + angle, reach)
        below = heading + angle

        def rest(level: float) -> Path:
            begin = ahead(lower, below, STRAIGHT)
            return straight(lower, begin) + curve(begin, below, (body.dot_x, level), DOWN - FLARE, 0.3, 0.42)

        wanted = body.back_side.length - math.dist(under, upper)
        level = solve(wanted, lambda level: rest(level).length, lower[1] + wanted - 50, lower[1] + wanted)
        self.dot = (body.dot_x, level)
        # The dart's cloth, pressed down, ends along the side below it: that line mirrored on the lower leg.
        mirrored = meeting(self.point, leg + angle * 3 / 2, lower, below)
        peak = ahead(self.point, leg + angle / 2, math.dist(self.point, mirrored))
        self.side = straight(under, upper, peak, lower) + rest(level)
        self.lower_side = rest(level)
        self.legs = tuple(
            straight(meeting(self.point, turn, *_beside(place, way)), self.point)
            for turn, place, way in ((leg, upper, heading), (leg + angle, lower, below))
        )

    def drafted(self) -> Drafted:
        body, of = self.body, self.body.of
        hem = body.hem(self.dot, "long")
        slit_end = (0.0, self.neckline.start[1] + of("slit"))
        slit = straight((SLIT, slit_end[1]), self.neckline.start)
        loops = [straight((0.0, y), (12.7, y)) for y in (self.neckline.start[1] + way for way in LOOPS)]
        wide, pocket = self.dot[0], of("pocket width")
        left, top = wide * 0.54 - pocket / 2, self.dot[1] - 45
        return Drafted(
            f"front {self.cup} cup",
            body.size,
            "1",
            (
                Edge("slit", slit, SLIT, sewing=straight((SLIT, slit_end[1] - 25.4), self.neckline.start)),
                Edge("neckline", self.neckline, SEAM),
                Edge("shoulder", body.shoulder, SEAM),
                Edge("armhole", self.armhole, SEAM),
                Edge("side", self.side, SEAM),
                Edge("vent", straight(self.dot, hem.start), SEAM, smooth=True),
                Edge("hem", hem, HEM, folded=True),
                Edge("fold", straight(hem.end, slit_end), 0.0, sewn=False),
            ),
            (
                Mark("armhole", -ARMHOLE_NOTCH * self.armhole.length),
                Mark("side", -of("side notch above dot")),
            ),
            (*self.legs, *body.inner_lines(self.dot, self.sleeveless), *loops),
            (slit_end, self.point, self.dot, (left, top), (left + pocket, top)),
            _grain(hem.end[1], body.tip[0]),
        )


def armhole(tip: Point, chest: float, under: Point, side: float, level: float) -> Path:
    """Square to the shoulder and to the side, and plumb at the chest (or across the back)."""
    middle = (chest, tip[1] + level * (under[1] - tip[1]))
    return curve(tip, SLOPE + DOWN, middle, DOWN) + curve(middle, DOWN, under, side - DOWN, 0.52, 0.42)


def slit_facing(body: Body) -> Drafted:
    front, of = body.fronts["B"], body.of
    neckline = front.neckline.between(0.0, front.neckline.length * 0.38)
    slit_end = (0.0, front.neckline.start[1] + of("slit"))
    bottom = (0.0, slit_end[1] + of("slit facing beyond slit"))
    middle = (neckline.end[0] - 1, bottom[1] - 44)
    outer = curve(neckline.end, DOWN, middle, DOWN, 0.3, 0.3) + curve(middle, DOWN, bottom, math.pi, 0.5, 0.5)
    return Drafted(
        "slit facing",
        body.size,
        "1",
        (
            Edge(
                "slit",
                straight((SLIT, slit_end[1]), neckline.start),
                SLIT,
                sewing=straight((SLIT, slit_end[1] - 25.4), neckline.start),
            ),
            Edge("neckline", neckline, SEAM),
            Edge("outer", outer, 0.0, sewn=False),
            Edge("fold", straight(bottom, slit_end), 0.0, sewn=False),
        ),
        (),
        (),
        (slit_end,),
        ((18.0, bottom[1] - 90), (18.0, neckline.start[1] + 30)),
    )


def armhole_facing(body: Body, name: str, sleeveless: Path, side: Path, double: bool) -> Drafted:
    """As the garment at its edges, and so wide all along the armhole."""
    width = body.of("facing width")
    inner = beside(sleeveless, -width)
    seam = side.between(0.0, width)
    shoulder = straight(inner.start, sleeveless.start)
    outer = inner.reversed()
    return Drafted(
        name,
        body.size,
        "2",
        (
            Edge("shoulder", shoulder, SEAM),
            Edge("armhole", sleeveless, SEAM),
            Edge("side", seam, SEAM),
            Edge(
                "outer",
                straight(seam.end, outer.start) + outer if math.dist(seam.end, outer.start) > 1e-6 else outer,
                0.0,
                sewn=False,
            ),
        ),
        (Mark("armhole", -ARMHOLE_NOTCH * sleeveless.length, double=double),),
        grain=_down_the_middle(sleeveless, inner, width),
    )


def _down_the_middle(armhole: Path, inner: Path, high: float) -> tuple[Point, Point]:
    """A grain line between the two, where the armhole runs most nearly straight down."""
    shares = [share / 40 for share in range(8, 33)]
    share = min(shares, key=lambda share: abs(math.cos(armhole.heading_at(share * armhole.length))))
    one, two = armhole.at(share * armhole.length), inner.at(share * inner.length)
    across, middle = (one[0] + two[0]) / 2, (one[1] + two[1]) / 2
    return (across, middle + high / 2), (across, middle - high / 2)


def _beside(place: Point, heading: float) -> tuple[Point, float]:
    return ahead(place, heading - DOWN, SEAM), heading


def _drawn_out(path: Path, way: float) -> Path:
    """Straight on at both ends."""
    begin, stop = ahead(path.start, path.heading, -way), ahead(path.end, path.final_heading, way)
    return straight(begin, path.start) + path + straight(path.end, stop)


def _grain(bottom: float, across: float) -> tuple[Point, Point]:
    return (across * 0.5, bottom * 0.78), (across * 0.5, bottom * 0.36)
