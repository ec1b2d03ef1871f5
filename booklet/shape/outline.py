"""A piece as its file draws it, before its edges have names; what read_dxf and read_svg give.

Seen from the right side of the cloth, in millimetres, x to the right, y down.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.record import NamedTuple
from booklet.shape.course import Course, Point

if TYPE_CHECKING:
    from booklet.finding import Place

Chord = tuple[Point, Point]


class Notch(NamedTuple):
    """A notch in the cutting line. kind: slit | v | t | castle | check | u; depth: into the allowance."""

    at: Point
    kind: str = "slit"
    depth: float = 0.0


class Outline(NamedTuple):
    """One piece in one size. size: "" where it is the same in every size.

    ring: the cutting line, closed; corners: where the file marks its turn points (or where it bends sharply), in the
    order in which the ring passes them; sew: the sewing lines, where drawn; lines: inner lines that are not cut out,
    in the file's order; holes: drill holes and other marked dots; texts: what is written on the piece; cutouts: closed
    lines cut out of its middle; label: what its block is called, which may hold the size.
    """

    name: str
    size: str
    ring: Course
    corners: tuple[Point, ...] = ()
    notches: tuple[Notch, ...] = ()
    sew: tuple[Course, ...] = ()
    mirror: Chord | None = None
    grain: Chord | None = None
    lines: tuple[Course, ...] = ()
    holes: tuple[Point, ...] = ()
    texts: tuple[str, ...] = ()
    cutouts: tuple[Course, ...] = ()
    label: str = ""


class BadOutline(ValueError):
    """Why a file of outlines, or a piece in it, is not taken: what is wrong, and the mend, in a sentence each.

    rule: the finding's name; place: where in the source the fault stands, where it is narrower than the piece.
    """

    def __init__(self, says: str, mend: str, rule: str = "outline-not-read", place: Place | None = None) -> None:
        super().__init__(says)
        self.says = says
        self.mend = mend
        self.rule = rule
        self.place = place


class OutlineFile(NamedTuple):
    """What one file gave: its outlines; the pieces, as the file names them, whose drawing can't be taken; the names
    of others that seem to be pieces.

    lineless: what is named and drawn but has no cutting line, and why that is; unsized: whether the file leaves open
    how large it is.
    """

    outlines: tuple[Outline, ...]
    bad: tuple[tuple[str, BadOutline], ...] = ()
    strange: tuple[str, ...] = ()
    lineless: tuple[tuple[str, str], ...] = ()
    unsized: bool = False
