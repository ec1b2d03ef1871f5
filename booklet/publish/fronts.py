"""The drawings of the pages before the steps: the views side by side, the map of the garment, the pattern pieces."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from booklet.draw.drawing import Drawing
    from booklet.plan.plan import Plan
    from booklet.shape.figure_size import FigureShapes

# How high may the page of all pieces be, in millimetres? With its head and caption it then fits Letter and A4.
SHEET = 190.0


class Fronts(NamedTuple):
    """branches: the views side by side; map: how the pieces come together; pictures: of the pieces, by `same_name`,
    one a fitting; sheet: all pieces at one scale. None, or empty, where there is nothing to draw."""

    branches: Drawing | None = None
    map: Drawing | None = None
    pictures: Mapping[str, tuple[Drawing, ...]] = MappingProxyType({})
    sheet: Drawing | None = None

    @property
    def every(self) -> Iterator[Drawing]:
        yield from (one for one in (self.branches, self.map, self.sheet) if one is not None)
        for pictures in self.pictures.values():
            yield from pictures


def fronts_of(plan: Plan, shapes: FigureShapes | None) -> Fronts:
    """For a page of paper."""
    from booklet.draw.branches import draw_branches
    from booklet.draw.map import draw_map

    branches = draw_branches(plan.branches) if plan.branches is not None else None
    garment = draw_map(plan.map, shapes) if plan.map is not None else None
    if shapes is None:
        return Fronts(branches, garment)
    from booklet.draw.pieces import draw_pictures, draw_sheet

    letters = tuple(view.letter for view in plan.views)
    return Fronts(
        branches, garment, draw_pictures(plan.pieces, shapes), draw_sheet(plan.pieces, letters, shapes, SHEET)
    )
