"""What an output is made from: the plans, drawings and findings of one pattern, each made when first asked for."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from booklet.plan.build import make_plan
from booklet.plan.film.filming import filming_of
from booklet.plan.plan import Art
from booklet.publish.fronts import Fronts, fronts_of
from booklet.read.tree import same_name
from booklet.sew.view import sew_view

if TYPE_CHECKING:
    from booklet.draw.drawing import Drawing
    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.plan.film.filming import Filming
    from booklet.plan.plan import Figure, Plan
    from booklet.sew.bench import Bench
    from booklet.shape.figure_size import FigureShapes


@dataclass(eq=False)
class Edition:
    """One pattern, sewn and checked. `findings` holds the allowed ones too."""

    name: str
    pattern: Pattern
    benches: list[Bench]
    findings: list[Finding]
    draft: bool = False
    _view_plans: dict[str, Plan] = field(default_factory=dict)

    @cached_property
    def plan(self) -> Plan:
        """Of all views."""
        return make_plan(self.pattern, self.benches, None, self.draft, self._drawn, self._length)

    def view_plan(self, letter: str) -> Plan:
        """Of one view, with the numbers it leaves out."""
        if letter not in self._view_plans:
            self._view_plans[letter] = make_plan(
                self.pattern, self.benches, letter, self.draft, self._drawn, self._length
            )
        return self._view_plans[letter]

    @cached_property
    def filming(self) -> Filming | None:
        """The day of filming, where a film is planned."""
        film = self.plan.films
        if film is None:
            return None
        letter = film.view.letter
        sewn = (bench for bench in self.benches if bench.view.letter == letter and not bench.left_out)
        return filming_of(self.pattern, next(sewn, None) or sew_view(self.pattern, self.pattern.views[letter]), film)

    @cached_property
    def drawings(self) -> dict[Figure, Drawing]:
        """Every figure of every view, drawn once; a figure whose pieces can't be laid out as it asks is left out."""
        from booklet.draw.art import art_drawing
        from booklet.draw.figures import draw_all

        wanted = [*self.plan.figures, *(view.figure for view in self.plan.views if view.figure is not None)]
        drawn = draw_all((figure for figure in wanted if not isinstance(figure, Art)), self.shapes)
        arts: dict[Figure, Drawing] = {
            figure: art_drawing(self.pattern.folder, figure) for figure in wanted if isinstance(figure, Art)
        }
        return drawn | arts

    @cached_property
    def figure_files(self) -> dict[Figure, str]:
        """Where the build writes each figure of the steps, once: it is called after the first step that shows it."""
        names: dict[Figure, str] = {}
        for step in self.plan.steps:
            mine = [figure for figure in step.figures if figure in self.drawings]
            for at, figure in enumerate(mine, 1):
                names.setdefault(figure, f"figures/step-{step.number}{f'-{at}' if at > 1 else ''}.svg")
        return names

    def _length(self, piece: str, edge: str) -> float | None:
        """Of an edge in the size of the figures, in millimetres; half of it where the piece is cut on the fold."""
        if self.shapes is None or same_name(piece) not in self._drawn:
            return None
        shape = self.shapes.of(piece, self.shapes.figure_size)
        found = shape.edges.get(same_name(edge)) if shape is not None else None
        return found.length if found is not None else None

    @cached_property
    def shapes(self) -> FigureShapes | None:
        """The outlines, in the size of the figures; None where the pattern has none."""
        from booklet.shape.figure_size import figure_shapes

        return figure_shapes(self.pattern)

    @cached_property
    def _drawn(self) -> frozenset[str]:
        """The pieces that have an outline with named edges, in the size of the figures."""
        return self.shapes.names if self.shapes is not None else frozenset()

    @cached_property
    def fronts(self) -> Fronts:
        """What is drawn before the steps of all views."""
        return fronts_of(self.plan, self.shapes)

    def view_fronts(self, letter: str) -> Fronts:
        """And before those of one."""
        return fronts_of(self.view_plan(letter), self.shapes)

    @cached_property
    def key(self) -> dict[str, Drawing]:
        """The swatches of the key."""
        from booklet.draw.key import draw_key

        return {row.kind: draw_key(row.kind) for row in self.plan.key}
