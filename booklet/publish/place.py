"""Puts a finished folder in the place of the old one in one move; until then the old one stays as it was."""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

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


def clear_beside(target: Path) -> None:
    """Removes what a build that did not end well had written."""
    shutil.rmtree(_beside(target), ignore_errors=True)


def strangers(target: Path, made: Iterable[str]) -> list[str]:
    """What lies in `target` that no build makes: putting a new one in its place would delete it.

    made: paths of the files of this build. What a system leaves where a person has looked does not count.
    """
    if not target.is_dir():
        return [target.name] if target.exists() else []
    mine = {name.partition("/")[0] for name in made}
    return sorted(
        path.name
        for path in target.iterdir()
        if path.name not in mine
        and not path.match("booklet-*.pdf")
        and path.name[0] != "."
        and path.name not in _LITTER
    )


# Source: from memory; Windows Explorer writes these, and what macOS and Linux write begins with a dot.
_LITTER = frozenset({"Thumbs.db", "desktop.ini"})


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
