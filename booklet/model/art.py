"""The designer's own drawings: only files of the pattern's own folder are ever read."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from booklet.model.pattern import ArtFile
from booklet.read.tree import Text

if TYPE_CHECKING:
    from booklet.read.faults import Faults
    from booklet.read.folder import Source

_ADDRESS = re.compile(r"\s*(?:[a-zA-Z][a-zA-Z0-9+.-]*:|//|\\\\)")


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
    if _ADDRESS.match(name):
        faults.add(
            "address-not-fetched",
            file.place,
            f"“{name[:80]}” is an address; nothing is fetched for a booklet.",
            "Save the drawing into the pattern's folder and write its name, as in art/collar.svg.",
        )
        return False
    try:
        path = (source.folder / name).resolve()
        inside = "\0" not in name and path.is_relative_to(source.folder.resolve())
        there = inside and path.is_file()
    except (OSError, ValueError, RuntimeError):
        inside, there = False, False
    if not inside:
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
