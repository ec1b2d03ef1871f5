"""A request for a section through the cloth becomes a drawing."""

from __future__ import annotations

import hashlib

from booklet.draw import strip
from booklet.draw.drawing import Drawing
from booklet.draw.words import caption, shows
from booklet.plan.plan import Section, Stage


def draw_section(section: Section) -> Drawing:
    """The strip of a seam or hem, 62 mm wide or 147 mm. Its name is the same whenever its lines and words are.

    Horizontal distances are the section's own numbers at one scale; the thickness of the cloth is diagrammatic.
    A request with no stages is drawn as stitched, or turned up.
    """
    if not section.stages:
        op = "fold" if section.construction in ("double hem", "casing") else "stitch"
        section = section._replace(stages=(Stage(op, (section.allowance,)),))
    laid = strip.lay_out(section)
    said = shows(section, laid)
    text, wide, high = strip.draw(laid, said)
    return Drawing(named(section.construction, text), text, wide, high, laid.wide, said, caption(section))


def named(kind: str, text: str) -> str:
    """A file name of small letters, figures and hyphens, which equal drawings share."""
    slug = "-".join(
        "".join(letter if letter.isascii() and letter.isalnum() else " " for letter in kind.lower()).split()
    )
    return f"{slug or 'drawing'}-{hashlib.sha256(text.encode()).hexdigest()[:10]}"
