"""Stages side by side: the scale they share, where each stands, and the finished strip."""

from __future__ import annotations

from fractions import Fraction
from typing import NamedTuple

from booklet.draw import svg
from booklet.draw.ink import look, millimetres, points
from booklet.draw.letters import ABOVE, BELOW
from booklet.draw.place import Label, Placed, place
from booklet.draw.stages import pictures
from booklet.draw.stages.picture import Picture
from booklet.plan.plan import Section

# Between which scales is chosen? Twentieths of life size, then hundredths for what is very wide.
_TWENTIETH = Fraction(1, 20)
_HUNDREDTH = Fraction(1, 100)


class Strip(NamedTuple):
    scale: Fraction
    wide: bool
    pictures: tuple[Picture, ...]
    placed: tuple[Placed, ...]


def lay_out(section: Section) -> Strip:
    """The largest scale at which the strip fits its column; the narrow column where that is large enough."""
    top = _top_scale(section)
    least = Fraction(look()["strip"]["shortest"]) / _longest(section)
    for wide in (False, True):
        room = millimetres("strip", "wide" if wide else "narrow")
        for scale in _scales(top, _TWENTIETH if wide else min(least, top)):
            shown = tuple(pictures(section, scale))
            placed = tuple(place(picture.scene) for picture in shown)
            if _needed(placed) <= room:
                return Strip(scale, wide, shown, placed)
    return Strip(scale, True, shown, placed)


def draw(strip: Strip, shows: str) -> tuple[str, float, float]:
    """The SVG, and its size in millimetres."""
    margin = millimetres("strip", "margin")
    room = millimetres("strip", "wide" if strip.wide else "narrow")
    gap = _gap(strip, room)
    size = points("words", "numeral")
    top = min(placed.bounds.top for placed in strip.placed)
    bottom = max(placed.bounds.bottom for placed in strip.placed)
    numeral = margin + bottom - top + 1.6 + ABOVE * size
    several = len(strip.placed) > 1
    high = numeral + BELOW * size + margin if several else bottom - top + 2 * margin
    wide = max(room, _needed(strip.placed))
    drawing = svg.document(wide, high, shows)
    x = margin
    for count, placed in enumerate(strip.placed, start=1):
        left, right = placed.bounds.left, placed.bounds.right
        down = number_pair(x - left, margin - top)
        stage = drawing.g(class_="figure-stage", transform=f"translate({down})")
        svg.scene(drawing, placed, stage)
        drawing.add(stage)
        if several:
            middle = x + (right - left) / 2
            drawing.add(svg.words(drawing, (Label(str(count), middle, numeral, "middle"),)))
        x += right - left + gap
    return drawing.tostring(), round(wide, 2), round(high, 2)


def number_pair(x: float, y: float) -> str:
    return f"{svg.number(x)} {svg.number(y)}"


def _needed(placed: tuple[Placed, ...]) -> float:
    gaps = millimetres("strip", "gap") * (len(placed) - 1)
    return sum(one.bounds.right - one.bounds.left for one in placed) + gaps + 2 * millimetres("strip", "margin")


def _gap(strip: Strip, room: float) -> float:
    """What is left over, shared between the stages."""
    least = millimetres("strip", "gap")
    between = len(strip.placed) - 1
    if not between:
        return least
    return min(least + max(room - _needed(strip.placed), 0) / between, millimetres("strip", "widest_gap"))


def _longest(section: Section) -> Fraction:
    """The longest distance that is shown, in millimetres of cloth."""
    shown = [
        length.millimetres
        for stage in section.stages
        if stage.op in ("stitch", "fold", "topstitch")
        for length in stage.measures
    ]
    return max(shown, default=section.allowance.millimetres) or Fraction(1)


def _top_scale(section: Section) -> Fraction:
    """So large that the longest distance has its greatest width on paper."""
    table = look()["strip"]
    exact = min(Fraction(table["longest"]) / _longest(section), Fraction(table["largest_scale"]))
    step = _TWENTIETH if exact >= _TWENTIETH else _HUNDREDTH
    return max(exact // step * step, _HUNDREDTH)


def _scales(top: Fraction, least: Fraction) -> list[Fraction]:
    scale, found = top, []
    while scale >= least:
        found.append(scale)
        scale -= _TWENTIETH
    return found or [top]
