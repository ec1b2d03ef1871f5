"""Which piece, fitting and size of the pattern a name in a file of outlines means."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from booklet.read.tree import same_name
from booklet.record import NamedTuple

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern
    from booklet.read.faults import Faults

# How drawing programs write a sign that an id can't hold. Source: common practice, no source.
_ESCAPED = re.compile(r"_x([0-9a-fA-F]{2,4})_")
_GLUE = re.compile(r"[_\-.,/]+")
_SIZE_WORD = re.compile(r"(?:size|sz)\s+")


class Told(NamedTuple):
    """piece: its key in the pattern; fitting, size: as the pattern spells them, "" where the name says none."""

    piece: str
    fitting: str
    size: str


def plain(name: str) -> str:
    """As names of files are compared: `FRONT_FACING` is `front facing`."""
    return same_name(_GLUE.sub(" ", _ESCAPED.sub(lambda match: chr(int(match[1], 16)), name)))


class Known:
    """The names of one pattern."""

    def __init__(self, pattern: Pattern) -> None:
        self._sizes = {plain(size): size for size in pattern.sizes}
        self._pieces: dict[str, tuple[str, str]] = {}
        for key, piece in pattern.pieces.items():
            for fitting in ("", *pattern.fittings):
                name = plain(f"{piece.name} {fitting}")
                self._pieces.setdefault(name, (key, fitting))
                self._pieces.setdefault(plain(f"{piece.number} {name}"), (key, fitting))

    def size(self, name: str) -> str | None:
        """`12`, `Size 12`, `size_12`; None where it is no size of the pattern."""
        written = plain(name)
        return self._sizes.get(written) or self._sizes.get(_SIZE_WORD.sub("", written, count=1))

    def told(self, name: str, size: str = "") -> Told | None:
        """`front`, `1 front`, `front B cup`, `front 12`, `12 front`. size: as the file says it elsewhere.

        None where no piece is meant, or a size that the pattern has not.
        """
        written = plain(name)
        sized = self.size(size) if size else ""
        if sized is None:
            return None
        if written in self._pieces:
            return Told(*self._pieces[written], sized)
        for key in sorted(self._sizes, key=len, reverse=True):
            for end in (f" {key}", f" size {key}", f" sz {key}"):
                if written.endswith(end) and (head := written.removesuffix(end)) in self._pieces:
                    return Told(*self._pieces[head], sized or self._sizes[key])
            if written.startswith(f"{key} ") and (tail := written.removeprefix(f"{key} ")) in self._pieces:
                return Told(*self._pieces[tail], sized or self._sizes[key])
        return None


def say_figure_size(pattern: Pattern, faults: Faults) -> None:
    """A fault, where `figure size` is none of the pattern's sizes."""
    wanted = pattern.figure_size
    if wanted is not None and Known(pattern).size(wanted.value) is None:
        faults.add(
            "unknown-size",
            wanted.place,
            f"“{wanted.value[:40]}” is no size of this pattern.",
            f"Write one of its sizes: {', '.join(pattern.sizes)}." if pattern.sizes else "Take it out.",
        )
