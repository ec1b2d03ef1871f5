"""The sample's drawings: rectangles of cloth with a row of stitching, standing in for those of another stage."""

from __future__ import annotations

from booklet.draw.drawing import Drawing
from booklet.plan.plan import Figure
from tests.publish.sample import ART, FACED, HEM, POCKET, SHOULDER, VIEWS


def placeholder(name: str, width: int, height: int, wide: bool, shows: str, caption: str) -> Drawing:
    """A rectangle of cloth with a row of stitching, standing in for the drawing of another stage."""
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"'
        f' viewBox="0 0 {width} {height}" stroke-width="0.32">'
        f'<rect x="0.3" y="0.3" width="{width - 0.6}" height="{height - 0.6}" fill="#d8d8d8" stroke="#000"/>'
        f'<path d="M3 4H{width - 3}" fill="none" stroke="#c8102e" stroke-dasharray="0.78 0.49"/>'
        f'<text x="3" y="9" font-family="Source Sans 3" font-size="2.65">{name.split("/")[-1][:12]}</text></svg>'
    )
    return Drawing(f"{name}.svg", svg, width, height, wide, shows, caption)


def garment(view: str) -> Drawing:
    """A sleeveless, short-sleeved or long-sleeved top in seven strokes."""
    reach = {"A": 0, "B": 10, "C": 28}[view]
    sleeves = (
        ""
        if not reach
        else f"M14 8L{14 - reach // 3} {12 + reach}l7 3L18 22M46 8L{46 + reach // 3} {12 + reach}l-7 3L42 22"
    )
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="70mm" viewBox="0 0 60 70">'
        '<g fill="none" stroke="#000" stroke-width="0.5" stroke-linecap="round" stroke-linejoin="round">'
        '<path d="M22 4Q30 16 38 4L46 8Q41 16 42 22L44 66Q30 69 16 66L18 22Q19 16 14 8Z" fill="#fff"/>'
        f'<path d="{sleeves}M16.2 62.5Q30 65.5 43.8 62.5"/></g></svg>'
    )
    return Drawing(f"view-{view.lower()}.svg", svg, 60, 70, False, ART[view].shows, "")


def drawings() -> dict[Figure, Drawing]:
    return {
        **{ART[view]: garment(view) for view in VIEWS},
        SHOULDER: placeholder(
            "french", 120, 34, True, "A French seam in four stages", "The shoulder seam from the side"
        ),
        FACED: placeholder("faced", 62, 46, False, "The faced armhole in section", "Trim, clip, then press"),
        HEM: placeholder("hem", 62, 30, False, "A double hem in section", "The hem from the side"),
        POCKET: placeholder("pocket", 62, 54, False, POCKET.shows, "Pocket on the front"),
    }


def key() -> dict[str, Drawing]:
    kinds = ("right side", "wrong side", "interfacing", "stitching", "fold")
    return {kind: placeholder(f"key-{kind.replace(' ', '-')}", 16, 10, False, f"Sign for {kind}", "") for kind in kinds}
