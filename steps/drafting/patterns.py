"""Which files are written, by their path under steps/."""

from __future__ import annotations

from collections.abc import Callable

from steps.drafting import dxf, saltmarsh_tunic

FILES: dict[str, Callable[[], bytes]] = {
    "saltmarsh-tunic/pieces.dxf": lambda: dxf.written(saltmarsh_tunic.TITLE, saltmarsh_tunic.pieces()),
}
