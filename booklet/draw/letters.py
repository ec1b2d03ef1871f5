"""How wide words are on paper, from the bundled type itself."""

from __future__ import annotations

from functools import cache

from booklet.draw.ink import look, millimetres, points
from booklet.styles_folder import styles_folder

# How far do letters reach above and below their base line? In ems, rounded up: b and fractions above, p and q below.
ABOVE = 0.72
BELOW = 0.24


@cache
def _widths() -> dict[int, float]:
    """Code point to advance width in ems."""
    from fontTools.ttLib import TTFont

    with TTFont(styles_folder() / "fonts" / look()["words"]["file"], lazy=True) as font:
        em = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        return {code: metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()}


def width(words: str) -> float:
    """Millimetres at the size of words in a figure. A letter that the type lacks counts as a full em; no kerning."""
    widths = _widths()
    return sum(widths.get(ord(letter), 1.0) for letter in words) * points("words", "size")


def fitted(words: str) -> str:
    """The words on one line, cut short with an ellipsis where they are wider than a figure can bear."""
    words = " ".join("".join(letter for letter in words if letter.isprintable()).split())
    longest = millimetres("words", "longest")
    if width(words) <= longest:
        return words
    while words and width(words + "…") > longest:
        words = words[:-1].rstrip()
    return words + "…"
