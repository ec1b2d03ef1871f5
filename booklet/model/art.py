"""The designer's own drawings: only files of the pattern's own folder are ever read."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from booklet.model.pattern import ArtFile
from booklet.read.inside import inside, is_address
from booklet.read.tree import Text

if TYPE_CHECKING:
    from booklet.read.faults import Faults
    from booklet.read.folder import Source


def art_file(read: tuple[bool, Any] | None, source: Source, faults: Faults) -> ArtFile | None:
    """The drawing, or None after saying why it is not taken."""
    if read is None or read[1] is None:
        return None
    keyed, value = read
    file: Text | None = value.get("file") if keyed else value
    if file is None or not _may_be_read(file, source, faults):
        return None
    return ArtFile(file, value.get("shows") if keyed else None)


def _may_be_read(file: Text, source: Source, faults: Faults) -> bool:
    name = file.value.strip()
    if is_address(name):
        faults.add(
            "address-not-fetched",
            file.place,
            f"“{name[:80]}” is an address; nothing is fetched for a booklet.",
            "Save the drawing into the pattern's folder and write its name, as in art/collar.svg.",
        )
        return False
    try:
        path = inside(source.folder, name)
    except (OSError, ValueError):
        path = None
    there = path is not None and os.path.isfile(path)
    if path is None:
        faults.add(
            "file-outside-folder",
            file.place,
            f"“{name[:80]}” lies outside the pattern's folder.",
            "Copy the drawing into the folder and write its name, as in art/collar.svg.",
        )
    elif not there:
        faults.add(
            "missing-file",
            file.place,
            f"There is no file “{name[:80]}” in the pattern's folder.",
            "Look at its name, or add the drawing.",
        )
    else:
        from booklet.read.drawing import BadDrawing, read_drawing

        try:
            read_drawing(path)
        except BadDrawing as error:
            faults.add("drawing-not-taken", file.place, error.says, error.mend)
            there = False
        except OSError as error:
            faults.add(
                "missing-file",
                file.place,
                f"“{name[:80]}” can't be opened: {error.strerror}.",
                "Look at its permissions.",
            )
            there = False
    return there
