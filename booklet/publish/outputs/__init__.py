"""One output, one file: a module with NAME and `files(edition) -> {path: bytes}`, found by looking into this folder."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.publish.edition import Edition


@cache
def outputs() -> dict[str, Any]:
    names = sorted(path.stem for path in Path(__file__).parent.glob("[a-z]*.py"))
    modules = [import_module(f"booklet.publish.outputs.{name}") for name in names]
    return {module.NAME: module for module in modules}


def all_files(edition: Edition, *only: str, also: Sequence[str] = ()) -> dict[str, bytes]:
    """Every output's files by their path in the pattern's build folder; `only`: of some outputs.

    A module with ASKED is left out unless it is named, there or in `also`.
    """
    files: dict[str, bytes] = {}
    for name, module in outputs().items():
        if name in (*only, *also) or (not only and not getattr(module, "ASKED", False)):
            files.update(module.files(edition))
    return files
