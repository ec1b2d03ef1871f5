"""Every piece of a pattern in every size and fitting, from its files of outlines; read and named when asked for."""

from __future__ import annotations

import os
from functools import cached_property
from typing import TYPE_CHECKING

from booklet.read.faults import nearest
from booklet.read.tree import same_name
from booklet.shape.course import TOLERANCE, area, length
from booklet.shape.files import OutlineSource, outline_sources
from booklet.shape.known import Known, Told, plain
from booklet.shape.outline import BadOutline

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from booklet.model.pattern import Pattern, Piece
    from booklet.read.faults import Faults
    from booklet.shape.outline import Outline, OutlineFile
    from booklet.shape.piece import PieceShape


# A pattern's largest piece is no shorter and no longer than this, in millimetres. Our choice: from a doll's bodice to a
# curtain.
SMALLEST, LARGEST = 60.0, 6_000.0
# Where a file does not say its units: longer than a dress is in centimetres, or a curtain in inches. Our choice.
UNSIZED_SMALLEST = 200.0


def read_shapes(pattern: Pattern, faults: Faults) -> Shapes | None:
    """The shapes of a pattern, or None where it names no outlines. Files are opened when the first shape is asked for.

    faults: takes what is found then, each once, at the `outlines` value or at the piece.
    """
    return Shapes(pattern, faults) if pattern.outlines else None


class Shapes:
    """sizes: the pattern's, or one that is "" where it has none; figure_size: the one in which figures are drawn.

    tolerance: how far flat lines may leave the curves, in millimetres.
    """

    def __init__(self, pattern: Pattern, faults: Faults, tolerance: float = TOLERANCE) -> None:
        self.pattern = pattern
        self.faults = faults
        self.tolerance = tolerance
        self.sizes: tuple[str, ...] = pattern.sizes or ("",)
        self._known = Known(pattern)
        self._shapes: dict[tuple[str, str, str], PieceShape | None] = {}
        self._bad: set[str] = set()
        self._strange: list[str] = []
        self._lineless: dict[str, str] = {}
        self._other_sizes: dict[str, dict[str, None]] = {}
        self._all_read = True
        self._unsized = False
        self._twice: set[str] = set()

    @cached_property
    def sources(self) -> list[OutlineSource]:
        """The files that are there."""
        before = len(self.faults.findings)
        found = outline_sources(self.pattern, self.faults)
        self._all_read = len(self.faults.findings) == before
        return found

    @property
    def figure_size(self) -> str:
        """The pattern's own, or the middle one, the smaller of two."""
        wanted = self.pattern.figure_size
        return (wanted and self._known.size(wanted.value)) or self.sizes[(len(self.sizes) - 1) // 2]

    def of(self, piece_name: str, size: str, fitting: str = "") -> PieceShape | None:
        """One piece, its edges named; None where it can't be had, after saying why. Names as in the source.

        fitting "": where the piece is drawn by fitting, the first that is drawn.
        """
        piece = self.pattern.pieces.get(same_name(piece_name))
        if piece is None:
            return None
        outline = self.outline(piece_name, size, fitting)
        if outline is None:
            self._say_missing(piece)
            return None
        key = (same_name(piece_name), fitting, size)
        if key not in self._shapes:
            self._shapes[key] = self._named(piece, outline)
        return self._shapes[key]

    def outline(self, piece_name: str, size: str, fitting: str = "") -> Outline | None:
        """The piece as its file draws it, whether its edges can be told or not."""
        key = same_name(piece_name)
        fittings = dict.fromkeys((fitting, "", *(() if fitting else self.pattern.fittings)))
        rows = ((key, fits, sized) for sized in (size, "") for fits in fittings)
        return next((self._outlines[row] for row in rows if row in self._outlines), None)

    def fittings_of(self, piece_name: str) -> tuple[str, ...]:
        """The fittings that have outlines of their own, in the pattern's order; ("",) where one serves all."""
        key = same_name(piece_name)
        drawn = {fits for name, fits, _ in self._outlines if name == key}
        return tuple(fits for fits in self.pattern.fittings if fits in drawn) or ("",)

    @cached_property
    def _outlines(self) -> dict[tuple[str, str, str], Outline]:
        """By the piece's key, the fitting and the size."""
        found: dict[tuple[str, str, str], Outline] = {}
        files: dict[tuple[str, str, str], str] = {}
        for source in self.sources:
            try:
                file = self._read(source)
            except BadOutline as error:
                self._all_read = False
                self._say_bad(source, error)
                continue
            for name, bad in file.bad:
                told = self._told(name, "", source)
                if told is not None and told.piece not in self._bad:
                    self._bad.add(told.piece)
                    self._say_bad(source, bad)
            self._strange += file.strange
            self._unsized |= file.unsized
            for name, why in file.lineless:
                if told := self._known.told(name):
                    self._lineless.setdefault(told.piece, f"{source.name}, where {why}")
            for outline in file.outlines:
                told = self._told(outline.name, outline.size, source, outline.label)
                if told is None:
                    self._say_unknown(outline)
                elif told not in found:
                    found[told] = outline._replace(size=told.size)
                    files[told] = source.name
                elif not alike(found[told], outline):
                    self._say_twice(told, files[told], source.name)
        self._say_scale(found.values())
        return found

    def _say_unknown(self, outline: Outline) -> None:
        """Keeps in mind what is drawn and has no place in the pattern: a name, or a size."""
        told = self._known.told(outline.name) if outline.size else None
        if told is None:
            self._strange.append(outline.name)
        else:
            self._other_sizes.setdefault(told.piece, {})[outline.size[:20]] = None

    def _say_twice(self, told: Told, first: str, second: str) -> None:
        """Once for a piece: two outlines that are not alike, of which one can be meant."""
        piece = self.pattern.pieces[told.piece]
        if told.piece not in self._twice:
            self._twice.add(told.piece)
            which = " ".join(part for part in (told.fitting, f"size {told.size}" if told.size else "") if part)
            self.faults.add(
                "piece-drawn-twice",
                piece.place,
                f"The {piece.name}{f', {which},' if which else ''} is drawn twice in "
                + (first if first == second else f"{first} and {second}")
                + ", and not alike; the first is taken.",
                "Take one of them out, or give it another name or another size."
                if told.size or not self.pattern.sizes
                else "Take one of them out; or where they are two sizes, say which each is: in the drawing, or in the "
                f"file's name, as in pieces-{self.sizes[0]}.",
                level="warning",
            )

    def _say_scale(self, outlines: Iterable[Outline]) -> None:
        """Inches or centimetres that were read as millimetres, or the other way round."""
        smallest = UNSIZED_SMALLEST if self._unsized else SMALLEST
        longest, name = max(((_longest(outline), outline.name) for outline in outlines), default=(smallest, ""))
        if not smallest <= longest <= LARGEST:
            self.faults.add(
                "outlines-out-of-scale",
                self.pattern.outlines[0].place,
                f"The largest piece of the outlines, the {name}, is {longest / 10:.1f} cm long"
                + (" as it is read; its file does not say its units." if self._unsized else "."),
                "Save the file again with its units: in a DXF by $INSUNITS or a text such as Units: METRIC, in an SVG "
                "by its width in mm.",
                level="warning",
            )

    def _say_bad(self, source: OutlineSource, bad: BadOutline) -> None:
        self.faults.add(bad.rule, source.written.place, f"{source.name}: {bad.says}", bad.mend)

    def _read(self, source: OutlineSource) -> OutlineFile:
        try:
            with open(source.path, "rb") as file:
                data = file.read()
        except OSError as error:
            raise BadOutline(f"it can't be opened: {error.strerror}.", "Look at its permissions.") from None
        if data.lstrip(b"\xef\xbb\xbf \t\r\n")[:1] == b"<":
            from booklet.shape.read_svg import read_svg

            return read_svg(data, self._known)
        from booklet.shape.other_files import refuse_other_files
        from booklet.shape.read_dxf import read_dxf

        refuse_other_files(data)
        return read_dxf(data)

    def _told(self, name: str, size: str, source: OutlineSource, label: str = "") -> Told | None:
        """The size stands in the drawing, in the piece's or the block's name, or in the file's or its folder's:
        `front-12.dxf`, `12/front.dxf`."""
        told = self._known.told(name, size)
        if told is None or told.size:
            return told
        *folders, file = source.name.split("/")
        for called in (label, os.path.splitext(file)[0], *reversed(folders)):
            words = plain(called).split(" ")
            tails = (self._known.size(" ".join(words[at:])) for at in range(len(words)))
            if sized := next((sized for sized in tails if sized), None):
                return told._replace(size=sized)
        return told

    def _named(self, piece: Piece, outline: Outline) -> PieceShape | None:
        from booklet.shape.name import shape_of

        try:
            return shape_of(piece, outline, self.tolerance)
        except BadOutline as error:
            key = same_name(piece.name)
            if key not in self._bad:
                self._bad.add(key)
                level = "warning" if error.rule == "edges-not-told" else "error"
                self.faults.add(error.rule, error.place or piece.place, error.says, error.mend, level=level)
            return None

    def _say_missing(self, piece: Piece) -> None:
        """Once for a piece: that it is not drawn, or in which sizes and fittings it is not."""
        key = same_name(piece.name)
        if key in self._bad or not self._all_read:
            return
        self._bad.add(key)
        if not any(name == key for name, _, _ in self._outlines):
            if key in self._lineless:
                self.faults.add(
                    "piece-not-drawn",
                    piece.place,
                    f"The {piece.name} has no cutting line in {self._lineless[key]}.",
                    "Draw it as a closed line, on layer 1 of a DXF or called “cut” in an SVG.",
                    level="warning",
                )
                return
            if key in self._other_sizes:
                drawn = list(self._other_sizes[key])
                self.faults.add(
                    "size-not-drawn",
                    piece.place,
                    f"The {piece.name} is drawn only in {'size' if len(drawn) == 1 else 'sizes'} {listed(drawn)}, "
                    "which the pattern does not have.",
                    "Write the sizes under “sizes” as the file calls them.",
                    level="warning",
                )
                return
            meant = nearest(piece.name, self._strange)
            self.faults.add(
                "piece-not-drawn",
                piece.place,
                f"The {piece.name} is not in the outlines" + (f", where there is a “{meant}”." if meant else "."),
                "Give it that name in your drafting program, or add its outline to the files."
                if meant
                else "Add its outline to the files; its name there must be the one written here.",
                level="warning",
            )
            return
        self.faults.add(
            "size-not-drawn",
            piece.place,
            f"The {piece.name} is not drawn in {listed(self._missing(piece))}.",
            "Save it in every size of the pattern.",
            level="warning",
        )

    def _missing(self, piece: Piece) -> Iterator[str]:
        for fitting in self.fittings_of(piece.name):
            sizes = [size for size in self.sizes if self.outline(piece.name, size, fitting) is None]
            if sizes:
                yield f"{fitting} {'size' if len(sizes) == 1 else 'sizes'} {listed(sizes)}".strip()


def alike(one: Outline, two: Outline) -> bool:
    """The same shape, wherever it lies on the sheet, turned or mirrored: as long round, and as large."""
    rings = [outline.ring.points() for outline in (one, two)]
    longs, areas = [length(ring) for ring in rings], [abs(area(ring)) for ring in rings]
    return abs(longs[0] - longs[1]) <= 0.5 and abs(areas[0] - areas[1]) <= 0.5 * longs[0]


def _longest(outline: Outline) -> float:
    """Across or down, whichever is more, in millimetres."""
    points = outline.ring.all_points()
    across, down = ([point[axis] for point in points] for axis in (0, 1))
    return max(max(across) - min(across), max(down) - min(down))


def listed(names: Iterable[str]) -> str:
    """`8, 10 and 12`."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
