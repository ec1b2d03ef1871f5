"""How wide words are on paper, from the bundled type itself."""

from __future__ import annotations

from functools import cache

from booklet.draw.ink import look, points
from booklet.styles_folder import styles_folder

# How far do letters reach above and below their base line? In ems, rounded up: b and fractions above, p and q below.
ABOVE = 0.72
BELOW = 0.24


@cache
def _widths(heavy: bool) -> dict[int, float]:
    """Code point to advance width in ems."""
    from fontTools.ttLib import TTFont

    with TTFont(styles_folder() / "fonts" / look()["words"]["heavy_file" if heavy else "file"], lazy=True) as font:
        em = font["head"].unitsPerEm
        metrics = font["hmtx"].metrics
        return {code: metrics[glyph][0] / em for code, glyph in font.getBestCmap().items()}


def width(words: str, heavy: bool = False) -> float:
    """Millimetres at the size of words in a figure, of the longest line; heavy: in semi-bold.

    A letter that the type lacks counts as a full em; no kerning.
    """
    return ems(words, heavy) * points("words", "size")


def ems(words: str, heavy: bool = False) -> float:
    """The same in ems of the type."""
    widths = _widths(heavy)
    return max(sum(widths.get(ord(letter), 1.0) for letter in line) for line in words.split("\n"))


def fitted(words: str, longest: float, heavy: bool = False) -> str:
    """The words on one line or two, none wider than `longest` millimetres; what is still too long is cut short."""
    words = " ".join("".join(letter if letter.isprintable() else " " for letter in words).split())
    first = words
    while width(first, heavy) > longest and " " in first:
        first = first.rpartition(" ")[0]
    rest = words[len(first) :].strip()
    lines = [cut(first, longest, heavy)] + ([cut(rest, longest, heavy)] if rest else [])
    return "\n".join(lines)


def cut(words: str, longest: float, heavy: bool = False) -> str:
    """One line, ended with an ellipsis where it is wider than `longest`."""
    if width(words, heavy) <= longest:
        return words
    while words and width(words + "…", heavy) > longest:
        words = words[:-1].rstrip()
    return words + "…"
