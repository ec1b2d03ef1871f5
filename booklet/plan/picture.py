"""What a step's figure is asked to show: cloths laid on one another, and what hands do to them. No geometry."""

from __future__ import annotations

from typing import NamedTuple

from booklet.length import Length


class Meeting(NamedTuple):
    """Two edges brought together: the cloth's own, and the edge of another cloth of the figure, by its number."""

    edge: str
    other: int
    other_edge: str


class Cloth(NamedTuple):
    """One piece of the picture.

    piece: its name, as shapes know it; called: as the figure writes it; cloth: self | lining | interfacing;
    face: the side that shows, right | wrong; how it lies: alone | laid (on the cloth it meets, edges level) | opened
    (beside it, seam lines together) | under, over (behind it, seen from its right or its wrong side) | placed (on the
    marked dots of another, by the ends of its own edge) | strap (both its ends on one edge of another);
    meets: the edges brought together; cut_to: edges cut along a marked line, with its name; sewn: edges that lie in a
    seam by now, so that the piece ends at its seam line there; hemmed: edges turned up by now; turned_in: edges whose
    allowance is pressed to the wrong side by now; ends_at: edges where it ends so far inside its cutting line;
    gathered: edges drawn up to what they meet; halved: two of its own edges, the first folded onto the second, or
    none; strip: edges along which alone it is shown; dots: the marks on which it is placed.
    """

    piece: str
    called: str
    cloth: str
    face: str
    how: str = "alone"
    meets: tuple[Meeting, ...] = ()
    cut_to: tuple[tuple[str, str], ...] = ()
    sewn: tuple[str, ...] = ()
    hemmed: tuple[str, ...] = ()
    darts: tuple[str, ...] = ()
    fused: bool = False
    quiet: bool = False
    turned_in: tuple[str, ...] = ()
    ends_at: tuple[tuple[str, Length], ...] = ()
    gathered: tuple[str, ...] = ()
    halved: tuple[str, ...] = ()
    strip: tuple[str, ...] = ()
    dots: tuple[str, ...] = ()


class Mark(NamedTuple):
    """What hands do, on some edges of one cloth (or a dart, by its name).

    kind: stitch | staystitch | baste | gather | ease | topstitch | edgestitch | understitch | finish | clip | notch |
    trim | press | turn in | hem | casing | cut | mark | dart | dart pressed | pleat | tuck | fuse | button |
    buttonhole | buttonhole on dots (`word` names them) | loop | zipper | close | tack | fell | pocket | insert | bind |
    placket | welt (edges: edges or marked lines; word: its kind); and
    what is seen beside: flap (an allowance that is pressed to the wrong side) | notches | pins | gathers;
    at: how far from the edge; more: other measures, as turns, or of a row what is written beside it; word: a
    direction, a manner or a name; many: how many; other: another cloth that it concerns.
    """

    kind: str
    cloth: int
    edges: tuple[str, ...] = ()
    at: Length | None = None
    more: tuple[Length, ...] = ()
    word: str = ""
    other: int = -1
    many: int = 0


class StepFigure(NamedTuple):
    """A request for a step's figure. Equal requests are one drawing."""

    cloths: tuple[Cloth, ...]
    marks: tuple[Mark, ...]
    shows: str
    caption: str
