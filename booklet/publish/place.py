"""Puts a finished folder in the place of the old one in one move; until then the old one stays as it was."""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

# renameat2 with RENAME_EXCHANGE, and its sister on macOS. Source: rename(2) of Linux; renamex_np(2) of macOS.
_AT_FDCWD = -100
_EXCHANGE = 2


def write_beside(target: Path, files: Mapping[str, bytes]) -> Path:
    """Writes files into a new folder beside `target`; returns it. What a killed build left there goes away."""
    target.parent.mkdir(parents=True, exist_ok=True)
    fresh = _beside(target)
    shutil.rmtree(fresh, ignore_errors=True)
    for name, data in files.items():
        path = fresh / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)
    return fresh


def _beside(target: Path) -> Path:
    return target.with_name(f".{target.name}.new")


def put_in_place(fresh: Path, target: Path) -> None:
    """`fresh` becomes `target`, in one move where the system can exchange two folders, else in two."""
    if not target.exists():
        fresh.rename(target)
        return
    if _exchange(fresh, target):
        shutil.rmtree(fresh, ignore_errors=True)
        return
    old = target.with_name(f".{target.name}.old")
    shutil.rmtree(old, ignore_errors=True)
    target.rename(old)
    fresh.rename(target)
    shutil.rmtree(old, ignore_errors=True)


def mend_place(target: Path) -> None:
    """Brings back what a build killed between two renames had set aside."""
    old = target.with_name(f".{target.name}.old")
    if old.is_dir() and not target.exists():
        old.rename(target)


def _exchange(first: Path, second: Path) -> bool:
    names = os.fsencode(first), os.fsencode(second)
    try:
        library = ctypes.CDLL(None, use_errno=True)
        if sys.platform == "darwin":
            return bool(library.renamex_np(*names, _EXCHANGE) == 0)
        return bool(library.renameat2(_AT_FDCWD, names[0], _AT_FDCWD, names[1], _EXCHANGE) == 0)
    except (OSError, AttributeError, TypeError):
        return False
