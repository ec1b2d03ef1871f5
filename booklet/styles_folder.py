"""Where the look lives: CSS, fonts and the figures' weights."""

from __future__ import annotations

from pathlib import Path


def styles_folder() -> Path:
    """The folder `styles`: beside this file in an installed package, beside the package in a checkout.

    Raises FileNotFoundError, naming both places, when neither is there.
    """
    package = Path(__file__).resolve().parent
    places = (package / "styles", package.parent / "styles")
    for place in places:
        if place.is_dir():
            return place
    raise FileNotFoundError(f"no styles folder at {places[0]} or {places[1]}")
