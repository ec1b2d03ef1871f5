"""Collar, sleeves, cuff, band, pocket and loop strip of the tunic."""

from __future__ import annotations

import math

from steps.drafting.curve import curve, solve
from steps.drafting.path import Path, Point, ahead, beside, straight
from steps.drafting.piece import Drafted, Edge, Mark
from steps.drafting.tunic_body import ARMHOLE_NOTCH, DOWN, HEM, SEAM, SLIT, Body

COLLAR_RISE = math.radians(9)  # how far the neck edge has turned up at the front
ROUNDING = 17.0  # of the collar's front corners
INNER_LESS = 1.5  # the inner collar, at its top and ends
# The cap is so much longer than the armhole. Common practice, no source: 1 to 3 cm for a woven.
EASE_FRONT, EASE_BACK = 8.0, 10.0
TAPER = math.radians(5.5)  # of the underarm edges, at the cap


def collar(body: Body, inner: bool) -> Drafted:
    """Half, from the fold at the centre back. Its ends are the finished edges of the slit."""
    less = INNER_LESS if inner else 0.0
    length = body.back_neckline.length + body.fronts["B"].neckline.length - less

    def neck_to(far: float) -> Path:
        return curve((0.0, 0.0), 0.0, (far, -far * math.tan(COLLAR_RISE) * 0.42), -COLLAR_RISE, 0.5, 0.3)

    neck = neck_to(solve(length, lambda far: neck_to(far).length, length * 0.9, length))
    high = body.of("collar height") - less
    top = beside(neck, high)
    top = top.between(0.0, top.length - ROUNDING)
    upward = -COLLAR_RISE - DOWN
    straight_end = ahead(neck.end, upward, high - ROUNDING)
    end = straight(neck.end, straight_end) + curve(
        straight_end, upward, top.end, top.final_heading - math.pi, 0.39, 0.39
    )
    return Drafted(
        "inner collar" if inner else "outer collar",
        body.size,
        "1",
        (
            Edge("neck", neck, SEAM),
            Edge("end", end, SEAM),
            Edge("top", top.reversed(), SEAM),
            Edge("fold", straight(top.start, neck.start), 0.0, sewn=False),
        ),
        (Mark("neck", body.back_neckline.length), Mark("top", top.length * 0.5)),
        grain=((12.0, -high * 0.15), (12.0, -high * 0.85)),
    )


class Cap:
    """The sleeve's cap, from the back underarm (left) over the shoulder to the front underarm. The origin is at the
    back end."""

    def __init__(self, body: Body) -> None:
        self.wide = body.of("Upper arm, B and C")
        self.front = body.fronts["B"].armhole.length
        self.back = body.back_armhole.length

        def reaches(high: float) -> tuple[float, float]:
            """How wide each half is, so high and as long as it has to be."""
            narrow, wide = self.wide * 0.25, self.wide * 0.75
            back = solve(self.back + EASE_BACK, lambda reach: _back(reach, high).length, narrow, wide)
            return back, solve(self.front + EASE_FRONT, lambda reach: _front(reach, high).length, narrow, wide)

        self.high = solve(self.wide, lambda high: sum(reaches(high)), self.wide * 0.25, self.wide * 0.4)
        reach = reaches(self.high)
        back = _back(reach[0], self.high)
        front = _front(reach[1], self.high).moved(lambda point: (self.wide - point[0], point[1]), mirrored=True)
        self.line = back + front.reversed()
        self.top = back.end

    def marks(self) -> tuple[Mark, ...]:
        """There is no ease below the notches."""
        return (
            Mark("cap", ARMHOLE_NOTCH * self.back, double=True),
            Mark("cap", -ARMHOLE_NOTCH * self.front),
        )


def _back(reach: float, high: float) -> Path:
    """From the underarm at the origin up to the shoulder, `reach` to the right."""
    return _half(reach, high, (reach * 0.41, -high * 0.45))


def _front(reach: float, high: float) -> Path:
    """Likewise, as in a mirror: more hollow below, rounder above."""
    return _half(reach, high, (reach * 0.37, -high * 0.43))


def _half(reach: float, high: float, bend: Point) -> Path:
    steep = math.atan2(high, reach) * 1.28
    lower = curve((0.0, 0.0), -TAPER, bend, -steep, 0.44, 0.46)
    return lower + curve(bend, -steep, (reach, -high), 0.0, 0.36, 0.46)


def _lower(cap: Cap, wide: float, length: float) -> Path:
    """The lower edge, from right to left and square to the underarm edges, so low that the sleeve is `length` long from
    the top of the cap."""
    inset = (cap.wide - wide) / 2
    level = length - cap.high

    def edge(drop: float) -> Path:
        turn = math.atan2(inset, level + drop)
        right = (cap.wide - inset, level + drop)
        middle = (cap.wide / 2, level)
        half = curve(right, math.pi + turn, middle, math.pi)
        other = half.moved(lambda point: (cap.wide - point[0], point[1]), mirrored=True).reversed()
        return half + other

    return edge(wide / 2 * math.tan(math.atan2(inset, level) / 2))


def _grain(cap: Cap, level: float) -> tuple[Point, Point]:
    return (cap.wide / 2, level * 0.85), (cap.wide / 2, -cap.high * 0.55)


def elbow_sleeve(body: Body, cap: Cap) -> Drafted:
    band = body.of("band height")
    lower = _lower(cap, cap.wide - body.of("elbow width taken in"), body.of("Sleeve length, B") - band)
    return Drafted(
        "elbow sleeve",
        body.size,
        "2",
        (
            Edge("cap", cap.line, SEAM),
            Edge("underarm front", straight(cap.line.end, lower.start), SEAM),
            Edge("lower edge", lower, SEAM),
            Edge("underarm back", straight(lower.end, cap.line.start), SEAM),
        ),
        (*cap.marks(), Mark("lower edge", lower.length / 4), Mark("lower edge", lower.length * 3 / 4, double=True)),
        dots=(cap.top,),
        grain=_grain(cap, lower.start[1]),
    )


def sleeve_band(body: Body, around: float) -> Drafted:
    """A ring, folded in half lengthwise."""
    high = 2 * body.of("band height")
    corners = (0.0, 0.0), (around, 0.0), (around, high), (0.0, high)
    top, right, bottom, left = (straight(corners[at], corners[(at + 1) % 4]) for at in range(4))
    return Drafted(
        "sleeve band",
        body.size,
        "2",
        (
            Edge("sleeve edge", top, SEAM),
            Edge("front end", right, SEAM),
            Edge("inner edge", bottom, SEAM),
            Edge("back end", left, SEAM),
        ),
        (Mark("sleeve edge", around * 3 / 4), Mark("sleeve edge", around / 4, double=True)),
        lines=(straight((-SEAM, high / 2), (around + SEAM, high / 2)),),
        grain=((around * 0.2, high * 0.75), (around * 0.8, high * 0.75)),
    )


def long_sleeve(body: Body, cap: Cap) -> Drafted:
    """Its lower edge is gathered into the cuff."""
    wrist = _lower(cap, body.of("wrist width"), body.of("Sleeve length, C") - body.of("cuff height"))
    front, back = straight(cap.line.end, wrist.start), straight(wrist.end, cap.line.start)
    opening = body.of("sleeve opening")
    sewn = front.length - opening
    return Drafted(
        "long sleeve",
        body.size,
        "2",
        (
            Edge("cap", cap.line, SEAM),
            Edge("underarm front", front.between(0.0, sewn), SEAM),
            Edge("opening front", front.between(sewn, front.length), SEAM, smooth=True),
            Edge("wrist", wrist, SEAM),
            Edge("opening back", back.between(0.0, opening), SEAM),
            Edge("underarm back", back.between(opening, back.length), SEAM, smooth=True),
        ),
        (*cap.marks(), Mark("wrist", wrist.length / 2)),
        dots=(cap.top, front.at(sewn), back.at(opening)),
        grain=_grain(cap, wrist.start[1]),
    )


def cuff(body: Body) -> Drafted:
    """Folded in half along its middle; the front end (right) laps over the back end."""
    around = body.of("Cuff buttoned, C") + body.of("cuff lap")
    high = body.of("cuff height")
    corners = (0.0, 0.0), (around, 0.0), (around, high), (around, 2 * high), (0.0, 2 * high), (0.0, high)
    lines = [straight(corners[at], corners[(at + 1) % 6]) for at in range(6)]
    names = ("sleeve edge", "overlap upper", "overlap under", "inner edge", "underlap under", "underlap upper")
    smooth = ("overlap under", "underlap upper")
    inset = body.of("cuff lap") / 2
    return Drafted(
        "cuff",
        body.size,
        "2",
        tuple(Edge(name, line, SEAM, smooth=name in smooth) for name, line in zip(names, lines, strict=True)),
        (Mark("sleeve edge", around / 2), Mark("overlap under", 0.0), Mark("underlap upper", 0.0)),
        lines=(
            straight((-SEAM, high), (around + SEAM, high)),
            straight((around - inset - 8, high / 2), (around - inset + 8, high / 2)),
        ),
        dots=((inset, high / 2),),
        grain=((around * 0.2, high * 1.5), (around * 0.8, high * 1.5)),
    )


def patch_pocket(body: Body) -> Drafted:
    """As it lies on the half of the front that is drawn: its front side is at the left."""
    wide, deep = body.of("pocket width"), body.of("pocket depth")
    corners = (wide, 0.0), (0.0, 0.0), (0.0, deep), (wide, deep)
    lines = [straight(corners[at], corners[(at + 1) % 4]) for at in range(4)]
    return Drafted(
        "patch pocket",
        body.size,
        "2",
        (
            Edge("top", lines[0], HEM, folded=True),
            Edge("front side", lines[1], SEAM),
            Edge("bottom", lines[2], SEAM),
            Edge("back side", lines[3], SEAM),
        ),
        lines=(straight((-SEAM, 0.0), (wide + SEAM, 0.0)),),
        grain=((wide / 2, deep * 0.85), (wide / 2, deep * 0.2)),
    )


def loop_strip(body: Body) -> Drafted:
    """Cut on the bias: the grain lies aslant."""
    long, high = body.of("loop strip") - 2 * SLIT, body.of("loop strip width") - 2 * SLIT
    corners = (0.0, 0.0), (long, 0.0), (long, high), (0.0, high)
    lines = [straight(corners[at], corners[(at + 1) % 4]) for at in range(4)]
    names = ("upper edge", "right end", "lower edge", "left end")
    half = high * 0.45
    return Drafted(
        "loop strip",
        body.size,
        "1",
        tuple(Edge(name, line, SLIT) for name, line in zip(names, lines, strict=True)),
        grain=((long / 2 - half, high / 2 + half), (long / 2 + half, high / 2 - half)),
    )
