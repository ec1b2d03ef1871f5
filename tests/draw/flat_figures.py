"""The figures of the pieces that the demos ask for."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from booklet.pipeline import check_folder
from booklet.plan.picture import StepFigure
from booklet.plan.pictures import pictures_of
from booklet.read.faults import Faults
from booklet.sew.bench import Act
from booklet.shape.shapes import read_shapes

STEPS = Path(__file__).parents[2] / "steps"
DEMOS = ("saltmarsh-tunic", "lantern-tote", "pebble-joggers")


def asked(name: str) -> tuple[list[StepFigure], Any]:
    """Every figure of the pieces of one demo, in all views, each once; and its outlines, read anew."""
    checked = check_folder(STEPS / name)
    assert checked.pattern is not None
    shapes = read_shapes(checked.pattern, Faults())
    assert shapes is not None
    drawn = frozenset(piece for piece in checked.pattern.pieces if shapes.of(piece, shapes.figure_size) is not None)
    found: dict[StepFigure, None] = {}
    for bench in checked.benches:
        acts: dict[str, list[Act]] = {}
        for act in bench.acts:
            acts.setdefault(act.step.id, []).append(act)
        for step in bench.steps:
            found.update(dict.fromkeys(pictures_of(bench, acts.get(step.id, []), drawn)))
    return list(found), shapes
