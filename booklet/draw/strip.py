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
    """Stages in rows of `across`; `wide` asks for both columns of the step."""

    scale: Fraction
    wide: bool
    across: int
    pictures: tuple[Picture, ...]
    placed: tuple[Placed, ...]

    @property
    def rows(self) -> list[tuple[Placed, ...]]:
        return [self.placed[start : start + self.across] for start in range(0, len(self.placed), self.across)]

    @property
    def columns(self) -> list[float]:
        """The width of each column of stages, in millimetres."""
        return [max(_width(row[at]) for row in self.rows if at < len(row)) for at in range(len(self.rows[0]))]


def lay_out(section: Section) -> Strip:
    """The largest scale at which the strip fits its column: the narrow one, in one row or in two, if it can be.

    Long names give way before the scale does: to two lines, and where nothing else helps to fewer letters.
    """
    top = _top_scale(section)
    least = min(Fraction(look()["strip"]["shortest"]) / _longest(section), top)
    columns = ((False, 1, least), (False, 2, least), (True, 1, least))
    tries = [
        (*column, longest, cut)
        for cut in (False, True)
        for column in (*columns, *([(True, 1, _TWENTIETH)] if cut else []))
        for longest in look()["words"]["longest"]
    ]
    for wide, rows, lowest, longest, cut in tries:
        for scale in _scales(top, lowest):
            shown = tuple(pictures(section, scale, longest))
            placed = tuple(place(picture.scene) for picture in shown)
            strip = Strip(scale, wide, -(-len(placed) // rows), shown, placed)
            if _cut_short(placed) and not cut:
                break
            if len(placed) >= rows and _needed(strip) <= millimetres("strip", "wide" if wide else "narrow"):
                return strip
    return strip


def draw(strip: Strip, shows: str) -> tuple[str, float, float]:
    """The SVG, and its size in millimetres."""
    margin = millimetres("strip", "margin")
    room = millimetres("strip", "wide" if strip.wide else "narrow")
    wide = max(room, _needed(strip))
    high = sum(_height(strip, row) for row in strip.rows) + millimetres("strip", "row_gap") * (len(strip.rows) - 1)
    drawing = svg.document(wide, high + 2 * margin, shows)
    y, count = margin, 0
    for row in strip.rows:
        x = margin
        for column, placed in zip(strip.columns, row, strict=False):
            count += 1
            down = number_pair(x - placed.bounds.left, y - _top(row))
            stage = drawing.g(class_="figure-stage", transform=f"translate({down})")
            svg.scene(drawing, placed, stage)
            drawing.add(stage)
            if len(strip.placed) > 1:
                numeral = y + _bottom(row) - _top(row) + 1.6 + ABOVE * points("words", "numeral")
                label = Label(str(count), x + _width(placed) / 2, numeral, "middle")
                drawing.add(svg.words(drawing, (label,)))
            x += column + _gap(strip, room)
        y += _height(strip, row) + millimetres("strip", "row_gap")
    return drawing.tostring(), round(wide, 2), round(high + 2 * margin, 2)


def _cut_short(placed: tuple[Placed, ...]) -> bool:
    return any(label.words.endswith("…") for one in placed for label in one.labels)


def _width(placed: Placed) -> float:
    return placed.bounds.right - placed.bounds.left


def _top(row: tuple[Placed, ...]) -> float:
    return min(placed.bounds.top for placed in row)


def _bottom(row: tuple[Placed, ...]) -> float:
    return max(placed.bounds.bottom for placed in row)


def _height(strip: Strip, row: tuple[Placed, ...]) -> float:
    """Of the stages, and of the numerals under them where there are several stages."""
    numerals = 1.6 + (ABOVE + BELOW) * points("words", "numeral") if len(strip.placed) > 1 else 0.0
    return _bottom(row) - _top(row) + numerals


def number_pair(x: float, y: float) -> str:
    return f"{svg.number(x)} {svg.number(y)}"


def _needed(strip: Strip) -> float:
    gaps = millimetres("strip", "gap") * (len(strip.columns) - 1)
    return sum(strip.columns) + gaps + 2 * millimetres("strip", "margin")


def _gap(strip: Strip, room: float) -> float:
    """What is left over, shared between the stages."""
    least = millimetres("strip", "gap")
    between = len(strip.columns) - 1
    if not between:
        return least
    return min(least + max(room - _needed(strip), 0) / between, millimetres("strip", "widest_gap"))


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
