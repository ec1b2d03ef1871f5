"""Every figure of a plan, drawn once."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.draw.drawing import Drawing
from booklet.draw.section import draw_section
from booklet.plan.plan import Section


def draw_all(sections: Iterable[Section]) -> dict[Section, Drawing]:
    """Equal requests share a drawing; the order is that of the requests."""
    return {section: draw_section(section) for section in dict.fromkeys(sections)}
