"""Every piece of the Lantern Tote, in its one size."""

from __future__ import annotations

from collections.abc import Iterator

from steps.drafting.path import straight
from steps.drafting.piece import Drafted, Mark
from steps.drafting.rectangle import box, edges
from steps.drafting.tables import Measures

FOLDER, TITLE = "lantern-tote", "Lantern Tote"
SEAM, POCKET_HEM = 10.0, 30.0


def pieces() -> Iterator[Drafted]:
    """In the order of their numbers."""
    measures = Measures(FOLDER)

    def of(row: str) -> float:
        return measures.of(row, "")

    half, long, wide = of("half width"), of("Length of a handle"), of("Width of a handle")
    yield _upper_panel(half, of("upper panel"), of("handle from middle"), wide)
    yield _base(half, of("base"), of("corner"))
    yield _strip("handle", long, 2 * wide, ["first long edge", "first end", "second long edge", "second end"])
    yield Drafted(
        "facing",
        "",
        "2",
        edges(box(half, of("facing")), ["top", "side", "lower", "fold"], SEAM),
        (Mark("top", 0.0), Mark("lower", half)),
        grain=((half / 2, of("facing") * 0.85), (half / 2, of("facing") * 0.15)),
    )
    yield _lining(
        half, of("lining"), of("corner"), of("turning gap, half"), (of("pocket"), of("pocket below lining top"))
    )
    yield _pocket(of("pocket"), of("pocket depth"))
    names = ["first long edge", "first end", "second long edge", "second end"]
    yield _strip("key loop", of("key loop"), of("key loop width"), names, "1")
    yield _strip(
        "zip strip", of("zip strip"), of("zip strip width"), ["zip edge", "first end", "joining edge", "second end"]
    )


def _upper_panel(half: float, high: float, handle: float, wide: float) -> Drafted:
    places = [straight((x, 0.0), (x, 30.0)) for x in (handle - wide / 2, handle + wide / 2)]
    return Drafted(
        "upper panel",
        "",
        "2",
        edges(box(half, high), ["top", "side", "lower", "fold"], SEAM),
        (Mark("top", 0.0), Mark("lower", half)),
        lines=tuple(places),
        grain=((half / 2, high * 0.8), (half / 2, high * 0.3)),
    )


def _base(half: float, high: float, corner: float) -> Drafted:
    corners = [
        (0.0, 0.0),
        (half, 0.0),
        (half, high - corner),
        (half - corner, high - corner),
        (half - corner, high),
        (0.0, high),
    ]
    names = ["upper", "side", "corner side", "corner base", "bottom", "fold"]
    marks = (Mark("upper", 0.0), Mark("bottom", half - corner))
    return Drafted("base", "", "2", edges(corners, names, SEAM), marks, grain=((90.0, 140.0), (90.0, 30.0)))


def _lining(half: float, high: float, corner: float, gap: float, pocket: tuple[float, float]) -> Drafted:
    corners = [
        (0.0, 0.0),
        (half, 0.0),
        (half, high - corner),
        (half - corner, high - corner),
        (half - corner, high),
        (gap, high),
        (0.0, high),
    ]
    names = ["top", "side", "corner side", "corner base", "bottom", "turning gap", "fold"]
    return Drafted(
        "lining",
        "",
        "2",
        edges(corners, names, SEAM, ("turning gap",)),
        (Mark("top", 0.0), Mark("turning gap", gap)),
        dots=((gap, high), (pocket[0] / 2, pocket[1])),
        grain=((half / 2, high * 0.75), (half / 2, high * 0.3)),
    )


def _pocket(wide: float, deep: float) -> Drafted:
    top, *rest = edges(box(wide, deep), ["top", "right side", "bottom", "left side"], SEAM)
    return Drafted(
        "patch pocket",
        "",
        "1",
        (top._replace(allowance=POCKET_HEM, folded=True), *rest),
        lines=(straight((-SEAM, 0.0), (wide + SEAM, 0.0)),),
        grain=((wide / 2, deep * 0.85), (wide / 2, deep * 0.25)),
    )


def _strip(name: str, long: float, high: float, names: list[str], quantity: str = "2") -> Drafted:
    ends = ((long * 0.25, high * 0.75), (long * 0.75, high * 0.75))
    return Drafted(name, "", quantity, edges(box(long, high), names, SEAM), grain=ends)
