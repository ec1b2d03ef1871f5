"""Which figures a step shows: of its pieces, and of a construction the section the first time that a view meets it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from booklet.plan.pictures import pictures_by_view
from booklet.plan.plan import Figure, Section
from booklet.plan.stages import Course, edge_section, seam_section

if TYPE_CHECKING:
    from booklet.length import Length
    from booklet.model.pattern import Pattern, Step
    from booklet.plan.picture import StepFigure

# How many computed figures stand beside one step? Our choice: a step with more is hard to follow.
MOST = 2


def figures_of(
    pattern: Pattern, courses: Sequence[Course], arts: dict[str, Figure], drawn: frozenset[str]
) -> dict[str, tuple[Figure, ...]]:
    """By the step's id. `arts`: the designer's own drawings, which stand instead of the computed ones.

    A section is shown where at least one of the views meets it for the first time, so that the reader of each view
    finds it; a step's figures are the same in every output.
    """
    seen: list[list[_Shape]] = [[] for _ in courses]
    figures: dict[str, tuple[Figure, ...]] = {}
    for step in pattern.steps:
        art = arts.get(step.id)
        if art is not None:
            # Whatever section it would have is not shown: the next step that needs it has it.
            figures[step.id] = (art,)
            continue
        asked: list[Section] = []
        for course, shapes in zip(courses, seen, strict=True):
            for section in _asked(course, step):
                shape = _shape(section)
                if not any(shape.begins(shown) for shown in shapes):
                    shapes.append(shape)
                    asked.append(section)
        sections = tuple({_shape(section): section for section in reversed(asked)}.values())[::-1][:MOST]
        figures[step.id] = (*_pictures(courses, step, drawn), *sections)
    return figures


def _pictures(courses: Sequence[Course], step: Step, drawn: frozenset[str]) -> list[StepFigure]:
    """As each view that sews the step finds its pieces."""
    if not drawn:
        return []
    mine = {course.bench.view.letter: course for course in courses if step.id in course.acts}
    return pictures_by_view({letter: (course.bench, course.acts[step.id]) for letter, course in mine.items()}, drawn)


def _asked(course: Course, step: Step) -> Iterable[Section]:
    for act in course.acts.get(step.id, ()):
        if act.broken or not act.edges:
            continue
        if act.name == "sew" and act.seam is not None:
            yield seam_section(course, act.seam)
        elif act.name in ("hem", "casing", "bind"):
            section = edge_section(course.bench, act)
            if section is not None:
                yield section


class _Shape(NamedTuple):
    """A section without its names: two that look alike are one."""

    construction: str
    allowance: Length
    cloths: tuple[str, ...]
    backs: tuple[int, ...]
    stages: tuple[tuple[object, ...], ...]

    def begins(self, shown: _Shape) -> bool:
        """Whether one that is already shown holds all its pictures."""
        return self[:4] == shown[:4] and self.stages == shown.stages[: len(self.stages)]


# A pressing that moves nothing, and clips, which lie across the picture, show nothing.
_STILL = frozenset({"as sewn", "flat"})


def _shape(section: Section) -> _Shape:
    """One cloth throughout is one picture, whichever it is; so is a pressing to either side, and its mirror."""
    names = [side.lower() for side in section.sides]
    stages = tuple(
        (stage.op, stage.measures, _place(stage.manner, names))
        for stage in section.stages
        if stage.manner not in _STILL and stage.op != "clip"
    )
    cloths = ("self",) * len(section.cloths) if len(set(section.cloths)) == 1 else section.cloths
    return _Shape(section.construction, section.allowance, cloths, section.backs, stages)


def _place(manner: str, names: list[str]) -> str:
    toward = manner.removeprefix("toward ")
    return "toward" if toward != manner or toward in ("up", "down") or toward in names else manner
