"""Cards to lay over the film: a step's number and its title, its measures, or other words. As SVG and as PNG.

The words are outlines of the booklet's own type, so that any program shows them as they are; what is not the card is
transparent.
"""

from __future__ import annotations

import re
from functools import cache
from typing import Any, NamedTuple

from booklet.draw.ink import look
from booklet.draw.letters import ems
from booklet.draw.svg import number
from booklet.styles_folder import styles_folder


class Line(NamedTuple):
    """Words on one line: their left end and base line, in pixels; heavy: in semi-bold."""

    words: str
    x: float
    y: float
    size: float
    heavy: bool


class Card(NamedTuple):
    """A panel at the lower left (left, top, right, bottom) with its lines; rule: x of the upright between number and
    words, or None."""

    panel: tuple[float, float, float, float]
    lines: tuple[Line, ...]
    rule: float | None


def title_card(step: int | None, title: str) -> Card:
    """A step's number and title, or the title of a take of its own."""
    table = look()["card"]
    words = wrapped(title, table["title"], table["longest"], heavy=True)
    return _card("" if step is None else str(step), [(line, table["title"], True) for line in words], "title_leading")


def words_card(step: int | None, lines: tuple[str, ...]) -> Card:
    """Measures, each on a line of its own as the booklet sets it, or other words; long ones on several lines."""
    table = look()["card"]
    rows = [line for words in lines for line in wrapped(words, table["measure"], table["longest"], heavy=False)]
    return _card("" if step is None else str(step), [(row, table["measure"], False) for row in rows], "measure_leading")


def _card(numeral: str, rows: list[tuple[str, float, bool]], leading: str) -> Card:
    table = look()["card"]
    pad, gap = table["pad"], table["gap"]
    left = table["margin"]
    beside = wide(numeral, table["number"], True) + 2 * gap if numeral else 0.0
    words = max(wide(line, size, heavy) for line, size, heavy in rows)
    high = max(table[leading] * len(rows), table["number"] * 0.9 if numeral else 0.0)
    bottom = table["height"] - table["margin"]
    top = bottom - high - 2 * pad
    first = top + pad + (high - table[leading] * len(rows)) / 2 + table[leading] * 0.76
    lines = [
        Line(line, left + pad + beside, first + at * table[leading], size, heavy)
        for at, (line, size, heavy) in enumerate(rows)
    ]
    if numeral:
        lines.insert(0, Line(numeral, left + pad, (top + bottom) / 2 + table["number"] * 0.34, table["number"], True))
    right = left + 2 * pad + beside + words
    return Card((left, top, right, bottom), tuple(lines), left + pad + beside - gap if numeral else None)


def wrapped(words: str, size: float, longest: float, *, heavy: bool) -> list[str]:
    """On as few lines as hold them; a word too long for a line stands alone."""
    lines: list[str] = []
    for word in _FRACTION.sub(_built, words).split(" "):
        if lines and wide(f"{lines[-1]} {word}", size, heavy) <= longest:
            lines[-1] = f"{lines[-1]} {word}"
        else:
            lines.append(word)
    return lines


# A fraction that has no sign of its own: the slash alone would run into figures of full size.
_FRACTION = re.compile(r"([0-9]+)⁄([0-9]+)")
_RAISED, _LOWERED = (str.maketrans("0123456789", signs) for signs in ("⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"))


def _built(fraction: re.Match[str]) -> str:
    return f"{fraction[1].translate(_RAISED)}⁄{fraction[2].translate(_LOWERED)}"


def wide(words: str, size: float, heavy: bool) -> float:
    return ems(words, heavy) * size


def card_svg(card: Card) -> str:
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen

    table = look()["card"]
    left, top, right, bottom = card.panel
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{table["width"]}" height="{table["height"]}" '
        f'viewBox="0 0 {table["width"]} {table["height"]}">',
        f'<rect x="{number(left)}" y="{number(top)}" width="{number(right - left)}" height="{number(bottom - top)}" '
        f'fill="{table["paper"]}" fill-opacity="{table["opacity"]}"/>',
    ]
    if card.rule is not None:
        parts.append(
            f'<rect x="{number(card.rule)}" y="{number(top + table["pad"])}" width="{table["rule"]}" '
            f'height="{number(bottom - top - 2 * table["pad"])}" fill="{table["ink"]}"/>'
        )
    for line in card.lines:
        glyphs, cmap, em, advances = _type(line.heavy)
        x, scale = line.x, line.size / em
        pen = SVGPathPen(glyphs, ntos=number)
        for letter in line.words:
            name = cmap.get(ord(letter))
            if name is not None:
                glyphs[name].draw(TransformPen(pen, (scale, 0, 0, -scale, x, line.y)))
                x += advances[name][0] * scale
        parts.append(f'<path fill="{table["ink"]}" d="{pen.getCommands()}"/>')
    return "".join([*parts, "</svg>\n"])


@cache
def _type(heavy: bool) -> tuple[Any, dict[int, str], int, Any]:
    """The bundled type: its outlines, the glyph of each sign, units an em, advance widths."""
    from fontTools.ttLib import TTFont

    font = TTFont(_file(heavy))
    return font.getGlyphSet(), font.getBestCmap(), font["head"].unitsPerEm, font["hmtx"].metrics


def _file(heavy: bool) -> str:
    return str(styles_folder() / "fonts" / look()["words"]["heavy_file" if heavy else "file"])


def card_png(card: Card) -> bytes:
    """The same, as pixels; what is outside the panel is transparent."""
    import io

    from PIL import Image, ImageColor, ImageDraw, ImageFont

    table = look()["card"]
    image = Image.new("RGBA", (table["width"], table["height"]), (0, 0, 0, 0))
    draw = ImageDraw.Draw(image)
    paper = (*ImageColor.getrgb(table["paper"])[:3], round(255 * table["opacity"]))
    draw.rectangle(card.panel, fill=paper)
    if card.rule is not None:
        _, top, _, bottom = card.panel
        upright = (card.rule, top + table["pad"], card.rule + table["rule"], bottom - table["pad"])
        draw.rectangle(upright, fill=table["ink"])
    for line in card.lines:
        font = ImageFont.truetype(_file(line.heavy), line.size, layout_engine=ImageFont.Layout.BASIC)
        draw.text((line.x, line.y), line.words, font=font, fill=table["ink"], anchor="ls")
    data = io.BytesIO()
    image.save(data, "PNG", optimize=False, compress_level=6)
    return data.getvalue()
