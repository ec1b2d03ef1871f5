"""The layers of a DXF: what lies on each, which are read, and which are known and left alone.

Source: ASTM D6673-10, Standard Practice for Sewn Products Pattern Data Interchange: Data Format, table of layers, read
in a reproduction of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

NOTCHES = {4: "slit", 80: "t", 81: "castle", 82: "check", 83: "u"}
COURSES = {1: "cut", 6: "folds", 7: "grains", 8: "lines", 11: "cutouts", 14: "sew"}
POINTS = {2: "corners", 13: "holes"}

# Called so in a finding. Layers 3, 5, 9, 10 and 84 to 87 are left alone knowingly: curves are read from the lines
# themselves, and the others hold no cloth, but the lines by which pieces are graded, laid on stripes, and checked.
_CALLED = {
    2: "turn points",
    3: "curve points",
    4: "notches",
    5: "grade reference",
    6: "mirror line",
    7: "grain line",
    8: "inner lines",
    9: "stripe reference",
    10: "plaid reference",
    11: "cutouts",
    13: "drill holes",
    14: "sewing lines",
    15: "text",
    80: "notches",
    81: "notches",
    82: "notches",
    83: "notches",
    84: "quality check of layer 1",
    85: "quality check of layer 8",
    86: "quality check of layer 11",
    87: "quality check of layer 14",
}
# How many layers does one finding name? Our choice.
_MOST = 6


def number_of(layer: str) -> int:
    """The number of a layer; 0 for one that has another name."""
    return int(layer) if layer.isascii() and layer.isdigit() and len(layer) < 4 else 0


def listed_layers(layers: Iterable[str]) -> str:
    """`layer 84 (quality check of layer 1)`, `layers 14 (sewing lines) and “CUT”`."""
    names = sorted(set(layers), key=lambda layer: (number_of(layer) or 1000, layer))
    said = [_called(layer) for layer in names[:_MOST]] + (["others"] if len(names) > _MOST else [])
    *most, last = said
    return f"{'layers' if most else 'layer'} {', '.join(most)}{' and ' if most else ''}{last}"


def _called(layer: str) -> str:
    number = number_of(layer)
    if number in _CALLED:
        return f"{number} ({_CALLED[number]})"
    return layer if number or layer == "0" else f"“{layer[:30]}”"
