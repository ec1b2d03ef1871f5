"""Every figure of the steps as a file of its own: for the film, for the step lists, for who writes elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.draw.ink import look
from booklet.plan.plan import Art

if TYPE_CHECKING:
    from booklet.publish.edition import Edition

NAME = "figures"


def files(edition: Edition) -> dict[str, bytes]:
    """`figures/step-12.svg`, and `figures/step-12-2.svg` for its second. A designer’s own drawing stays as it is."""
    face = look()["words"]["family"]
    family, alone = f'font-family="{face}"', f"font-family=\"'{face}', sans-serif\""
    made: dict[str, bytes] = {}
    for figure, name in edition.figure_files.items():
        svg = edition.drawings[figure].svg
        # Alone it has not the booklet's type: where that is not installed, another without serifs stands in. A name
        # with a number in it counts only in quotes (CSS Fonts Module Level 3, 3.1).
        made[name] = (svg if isinstance(figure, Art) else svg.replace(family, alone)).encode()
    return made
