"""Which files are written, by their path under steps/."""

from __future__ import annotations

from collections.abc import Iterator

from steps.drafting import dxf, lantern_tote, pebble_joggers, saltmarsh_tunic, svg


def files() -> Iterator[tuple[str, bytes]]:
    for pattern in (saltmarsh_tunic, pebble_joggers):
        yield f"{pattern.FOLDER}/pieces.dxf", dxf.written(pattern.TITLE, pattern.pieces())
    for piece in lantern_tote.pieces():
        name = piece.name.replace(" ", "-")
        yield f"{lantern_tote.FOLDER}/pieces/{name}.svg", svg.written(lantern_tote.TITLE, piece)
