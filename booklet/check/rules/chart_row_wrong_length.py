"""A row of a chart has another number of figures than there are sizes.

What it finds: a row under `charts` that has neither one figure for each size nor a single one for all.

Why it matters at the machine: from the gap on, every figure stands under the wrong size, and the sewer cuts by it.

Wrong:
    charts:
      body measurements: {unit: in, rows: {Bust: [34, 36]}}

Right:
    charts:
      body measurements: {unit: in, rows: {Bust: [34, 36, 38]}}

Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.words import listed
from booklet.model.pattern import Pattern

LEVEL = "error"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    sizes = len(pattern.sizes)
    for chart in pattern.charts:
        for label, figures in chart.rows:
            if sizes and len(figures) not in (1, sizes):
                are = "is 1 size" if sizes == 1 else f"are {sizes} sizes"
                has = "1 figure" if len(figures) == 1 else f"{len(figures)} figures"
                yield Found(
                    figures[0].place if figures else chart.place,
                    None,
                    f"The row “{label}” of “{chart.title}” has {has}, and there {are}.",
                    f"Write one figure a size ({listed(pattern.sizes)}), or a single one for all.",
                )
