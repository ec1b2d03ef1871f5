"""The files of outlines that a pattern names: only those of its own folder."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from booklet.model.pattern import Pattern
    from booklet.read.faults import Faults
    from booklet.read.tree import Text

# The most files, and the most bytes in all of them. Our choice: a file a piece and size of a large pattern.
MOST_FILES, MOST_BYTES = 400, 64_000_000
_ADDRESS = re.compile(r"\s*(?:[a-z][a-z0-9+.-]+:|//|\\\\)", re.IGNORECASE)


class OutlineSource(NamedTuple):
    """One file: where the pattern names it, and where it is. name: relative to the folder, with slashes."""

    written: Text
    name: str
    path: Path


def outline_sources(pattern: Pattern, faults: Faults) -> list[OutlineSource]:
    """Every file, in the order in which they are written; those of a `*` by name. What can't be taken is a finding."""
    found: dict[Path, OutlineSource] = {}
    for written in pattern.outlines:
        for source in _named(pattern.folder, written, faults):
            found.setdefault(source.path, source)
    sources = list(found.values())
    if len(sources) > MOST_FILES or sum(source.path.stat().st_size for source in sources) > MOST_BYTES:
        faults.add(
            "outline-not-read",
            pattern.outlines[0].place,
            f"The outlines come to more than {MOST_FILES} files or {MOST_BYTES // 1_000_000} MB.",
            "Save several sizes into one file, with fewer points along the curves.",
        )
        return []
    return sources


def _named(folder: Path, written: Text, faults: Faults) -> Iterator[OutlineSource]:
    name = written.value.strip()
    shown = name[:80]
    if _ADDRESS.match(name):
        faults.add(
            "address-not-fetched",
            written.place,
            f"“{shown}” is an address; nothing is fetched for a booklet.",
            "Save the outlines into the pattern's folder and write their name, as in pieces.dxf.",
        )
        return
    try:
        paths = _paths(folder, name)
        outside = [path for path in paths if not path.resolve().is_relative_to(folder.resolve())]
        there = [path for path in paths if path not in outside and path.is_file()]
    except (OSError, ValueError, RuntimeError):
        outside, there = [folder], []
    if outside:
        faults.add(
            "file-outside-folder",
            written.place,
            f"“{shown}” lies outside the pattern's folder.",
            "Copy the file into the folder and write its name, as in pieces.dxf.",
        )
    elif not there:
        faults.add(
            "missing-file",
            written.place,
            f"There is no file “{shown}” in the pattern's folder.",
            "Look at its name, or save the outlines there from your drafting program.",
        )
    for path in there:
        yield OutlineSource(written, path.relative_to(folder).as_posix(), path)


def _paths(folder: Path, name: str) -> list[Path]:
    """The file, or those that a `*` in its last part stands for. Raises ValueError for a name that climbs out."""
    head, _, last = name.replace("\\", "/").rpartition("/")
    if "\0" in name or name.startswith(("/", "~")) or ".." in head.split("/") or last == "..":
        raise ValueError(name)
    place = folder / head
    if "*" not in last:
        return [place / last]
    wanted = re.compile(".*".join(re.escape(part) for part in re.split(r"\*+", last)), re.IGNORECASE)
    return sorted((path for path in place.iterdir() if wanted.fullmatch(path.name)), key=lambda path: path.name)
