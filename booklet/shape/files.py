"""The files of outlines that a pattern names: only those of its own folder."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from booklet.read.inside import inside, is_address
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from collections.abc import Iterator

    from booklet.model.pattern import Pattern
    from booklet.read.faults import Faults
    from booklet.read.tree import Text

# The most files, and the most bytes in all of them. Our choice: a file a piece and size of a large pattern.
MOST_FILES, MOST_BYTES = 400, 64_000_000


class OutlineSource(NamedTuple):
    """One file: where the pattern names it, and where it is. name: relative to the folder, with slashes."""

    written: Text
    name: str
    path: str


def outline_sources(pattern: Pattern, faults: Faults) -> list[OutlineSource]:
    """Every file, in the order in which they are written; those of a `*` by name. What can't be taken is a finding."""
    found: dict[str, OutlineSource] = {}
    for written in pattern.outlines:
        for source in _named(pattern.folder, written, faults):
            found.setdefault(source.path, source)
    sources = list(found.values())
    if len(sources) > MOST_FILES or sum(os.path.getsize(source.path) for source in sources) > MOST_BYTES:
        faults.add(
            "outline-not-read",
            pattern.outlines[0].place,
            f"The outlines come to more than {MOST_FILES} files or {MOST_BYTES // 1_000_000} MB.",
            "Save several sizes into one file, with fewer points along the curves.",
        )
        return []
    return sources


def _named(folder: str, written: Text, faults: Faults) -> Iterator[OutlineSource]:
    name = written.value.strip()
    shown = name[:80]
    if is_address(name):
        faults.add(
            "address-not-fetched",
            written.place,
            f"“{shown}” is an address; nothing is fetched for a booklet.",
            "Save the outlines into the pattern's folder and write their name, as in pieces.dxf.",
        )
        return
    try:
        paths = _paths(folder, name)
        outside = [path for path in paths if inside(folder, path) is None]
        there = [path for path in paths if path not in outside and os.path.isfile(os.path.join(folder, path))]
    except (OSError, ValueError):
        outside, there = [name], []
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
        yield OutlineSource(written, path, os.path.join(folder, path))


def _paths(folder: str, name: str) -> list[str]:
    """The file, or those that a `*` in its last part stands for, by their places in the folder, with slashes.

    Raises ValueError for a name that climbs out.
    """
    head, _, last = name.replace("\\", "/").rpartition("/")
    if "\0" in name or name.startswith(("/", "~")) or ".." in head.split("/") or last == "..":
        raise ValueError(name)
    head = "/".join(part for part in head.split("/") if part not in ("", "."))
    if "*" not in last:
        return [f"{head}/{last}" if head else last]
    import re

    wanted = re.compile(".*".join(re.escape(part) for part in re.split(r"\*+", last)), re.IGNORECASE)
    names = sorted(filter(wanted.fullmatch, os.listdir(os.path.join(folder, head))))
    return [f"{head}/{name}" if head else name for name in names]
