"""Ink: the weights, tones and colours of styles/figures.toml, in millimetres."""

from __future__ import annotations

import tomllib
from functools import cache
from typing import Any

from booklet.styles_folder import styles_folder

# How many millimetres is one point? 1 in = 72 pt = 25.4 mm. Source: CSS Values and Units 3, section 6.2.
POINT = 25.4 / 72


@cache
def look() -> dict[str, Any]:
    """The tables of styles/figures.toml, as written."""
    with (styles_folder() / "figures.toml").open("rb") as file:
        return tomllib.load(file)


def points(table: str, name: str) -> float:
    """A weight or type size, written in points, in millimetres."""
    return float(look()[table][name]) * POINT


def millimetres(table: str, name: str) -> float:
    return float(look()[table][name])


def colour(table: str, name: str = "colour") -> str:
    return str(look()[table][name])


def onward_length() -> float:
    """How far the dashes reach in which a layer goes on beyond the picture."""
    cloth = look()["cloth"]
    return float(sum(cloth["broken"]) + cloth["broken_gap"] * len(cloth["broken"]))
