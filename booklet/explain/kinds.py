"""Which tables have pages, what a row of each is called, and by which words it is found."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

Row = dict[str, Any]


class Kind(NamedTuple):
    """called: what a row is; words: those that find it; whole: words that find the whole table."""

    called: str
    words: Callable[[str, Row], Iterator[str]]
    whole: tuple[str, ...] = ()


def _own(name: str, row: Row) -> Iterator[str]:
    yield name
    yield from row.get("also", ())


def _with(noun: str) -> Callable[[str, Row], Iterator[str]]:
    """`french`, and `french seam` as well."""

    def words(name: str, row: Row) -> Iterator[str]:
        yield from _own(name, row)
        yield f"{name} {noun}"

    return words


def _stitch(name: str, row: Row) -> Iterator[str]:
    yield from (name, f"stitch {name}", row["name"], *row.get("also", ()))


def _seam_type(name: str, row: Row) -> Iterator[str]:
    yield from (name, f"{name}-{row['rows']}")
    if "iso" in row:
        yield row["iso"]["code"]


def _class(name: str, row: Row) -> Iterator[str]:
    yield from (name, f"class {name}", row["name"])


def _needle_size(name: str, row: Row) -> Iterator[str]:
    yield from (f"{name}/{row['us']}", f"nm {name}", f"needle {name}", f"needle {name}/{row['us']}")


def _needle_point(name: str, row: Row) -> Iterator[str]:
    yield from (f"{word} needle" for word in (name, *row["words"]))


def _term(name: str, row: Row) -> Iterator[str]:
    yield from (name, *row["words"])


def _caution(name: str, row: Row) -> Iterator[str]:
    yield from (name, row["hazard"].rstrip("."))


KINDS = {
    "operations": Kind("an operation of `work`", _own),
    "constructions": Kind("a seam construction", _with("seam"), ("seam", "seams", "construction", "seam construction")),
    "hems": Kind("a kind of hem", _with("hem"), ("kind of hem", "hems")),
    "finishes": Kind("a seam finish", _with("finish"), ("finishes", "seam finish")),
    "zippers": Kind("a kind of zipper", _with("zipper"), ("zippers",)),
    "pockets": Kind("a kind of pocket", _with("pocket"), ("pockets",)),
    "plackets": Kind("a kind of placket", _with("placket"), ("plackets",)),
    "closures": Kind("a closure", _own, ("closure", "closures")),
    "stitches": Kind("a stitch type of ISO 4915", _stitch, ("stitch", "stitch type", "stitches")),
    "stitch_classes": Kind("a stitch class of ISO 4915", _class, ("stitch class",)),
    "seam_types": Kind("a seam type of ASTM D6193", _seam_type, ("seam type", "seam code", "code", "codes")),
    "seam_classes": Kind("a seam class of ASTM D6193", _class, ("seam class",)),
    "tools": Kind("a tool", _own, ("tool", "tools")),
    "needle_sizes": Kind("a machine needle's size", _needle_size, ("needle size", "needle sizes", "needle")),
    "needle_points": Kind("a machine needle's point", _needle_point, ("needle point", "needle points")),
    "stitch_lengths": Kind("a stitch length", _with("stitch length"), ("stitch length", "stitch lengths")),
    "hem_depths": Kind("the depth of a hem, by the cut of the skirt", _own, ("hem depth", "hem depths")),
    "notions": Kind("a notion", _own),
    "cautions": Kind("a caution", _caution, ("caution", "cautions")),
    "glossary": Kind("a word of the trade", _term),
}
