"""The published codes of stitches and seams: which there are, and of which class each is."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, Any

from booklet.craft.load import constructions, table
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.sew.bench import Act

# ASTM D6193: two capitals, small letters, and the number of rows. ISO 4916: class, configuration, penetration.
_SEAM = re.compile(r"(?P<cls>[A-Z]{2})(?P<type>[a-z]{1,2})(?:-(?P<rows>[1-9]))?\Z")
_ISO_SEAM = re.compile(r"[1-8]\.[0-9]{2}\.[0-9]{2}\Z")


def stitch_class(code: str) -> str:
    """`504` -> `500`; "" where it is no stitch type of ISO 4915."""
    for name, row in table("stitch_classes").items():
        if len(code) == 3 and code.isdecimal() and code.isascii() and row["first"] <= code <= row["last"]:
            return str(name)
    return ""


def seam_class(code: str) -> str:
    """`LSc-2` -> `LS`; "" where it is no seam code, or one of ISO 4916."""
    match = _SEAM.match(code)
    return match["cls"] if match and match["cls"] in table("seam_classes") else ""


def is_stitch(code: str) -> bool:
    return bool(stitch_class(code))


def is_seam(code: str) -> bool:
    """The standards name more types than we hold: a code that is formed as theirs are is taken for one."""
    return bool(seam_class(code) or _ISO_SEAM.match(code))


@cache
def seam_codes() -> dict[str, dict[str, Any]]:
    """Every code that we hold, as written with its rows (`SSa-1`) or as ISO 4916 numbers it, and its row."""
    codes: dict[str, dict[str, Any]] = {}
    for name, row in table("seam_types").items():
        codes[f"{name}-{row['rows']}"] = row
        if "iso" in row:
            codes[row["iso"]["code"]] = row
    return codes


def near_stitch(code: str) -> str | None:
    """The type that a slip of the hand most likely meant: the same figures in another order, or nearly the same."""
    swapped = next((known for known in table("stitches") if sorted(known) == sorted(code)), None)
    return swapped or nearest(code, table("stitches"))


def near_seam(code: str) -> str | None:
    return nearest(code, seam_codes())


def written(act: Act, key: str) -> Text | None:
    """The code under `stitch` or `class` of an entry."""
    code: Text | None = act.entry.options.get(key)
    return code


def class_made(act: Act) -> str:
    """The seam class that an entry makes by its construction or operation, where no other can be meant; else "".

    A plain or mock felled seam is joined first as any seam is, and its code may be that of what is done to it later.
    """
    for name, row in table("seam_classes").items():
        if act.name in row.get("operations", ()):
            return str(name)
    word: Text | None = act.entry.options.get("seam")
    row = constructions()[same_name(word.value)] if word is not None else {}
    if row.get("first") == "lapped" or row.get("encloses") == "true":
        return seam_class(row.get("codes", {}).get("astm", "").split(" ")[0])
    return ""


def stitch_class_meant(act: Act) -> str:
    """The one stitch class that a finish or a seam is made with by its meaning (an overlock by class 500); else "" ."""
    how, seam = act.entry.options.get("how"), act.entry.options.get("seam")
    for row in table("finishes").values():
        named = how is not None and how.value == row.get("how")
        if "class" in row and (named or (seam is not None and seam.value in row.get("constructions", ()))):
            return str(row["class"])
    return ""
