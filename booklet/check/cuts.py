"""How deep clips and notches are cut into the allowances of a seam."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.check.numbers import same
from booklet.craft.load import constructions

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.length import House, Length
    from booklet.sew.bench import Act, Bench, Edge, Layer


def deep_cuts(bench: Bench) -> Iterator[tuple[Act, Length]]:
    """Every clip and notch with its depth, where the writer gives one and the allowances lie bare."""
    for act in bench.of("clip", "notch"):
        deep = act.entry.measure("deep")
        if deep is None or act.seam is None or any(edge.excused for edge in act.seam.edges):
            continue
        row = constructions()[act.seam.construction]
        if not row.get("flat") and not row.get("needs"):
            yield act, deep


def past(deep: Length, row: Length, house: House) -> bool:
    return deep > row and not same(deep, row, house)


def staystitched(layer: Layer, before: int) -> Iterator[tuple[Edge, Act, Length]]:
    """The rows of staystitching in a layer, with their distance from the edge as it is cut at that time."""
    for edge in layer.edges:
        for act in edge.acts:
            at = act.entry.measure("at") if act.name == "staystitch" and act.time < before else None
            if at is None:
                continue
            off = layer.widths[0][1].millimetres - layer.width_at(before).millimetres
            if at.millimetres > off:
                yield edge, act, at - (layer.widths[0][1] - layer.width_at(before)) if off else at
