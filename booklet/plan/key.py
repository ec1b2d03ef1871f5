"""The key to the figures: a row for each tone and line that they use, and none that they don't."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from booklet.plan.picture import StepFigure
from booklet.plan.plan import Figure, Key, Section

# In the order of the key. The words are the trade's.
_WORDS = {
    "right side": "Right side of the fabric",
    "wrong side": "Wrong side of the fabric",
    "lining": "Lining",
    "interfacing": "Interfacing",
    "stitching": "Stitching",
    "basting": "Basting, gathering, easing",
    "zigzag": "Edge finished",
    "hand stitches": "Stitches by hand",
    "cut here": "Cut here",
    "cut edge": "Cut edge; what is trimmed off is dashed",
    "marked line": "Line to be marked",
    "notch": "Notches",
    "clip": "Clips; notches cut out",
    "fold": "Fold",
    "folded edge": "Folded edge",
    "centre line": "Centre line",
    "hidden edge": "Edge under another layer",
    "press arrow": "Press, turn or fold this way",
}
# Which marks of a step's figure show what.
_MARKS = {
    "basting": {"baste", "gather", "ease"},
    "zigzag": {"finish"},
    "hand stitches": {"close", "tack"},
    "cut here": {"cut"},
    "cut edge": {"trim"},
    "marked line": {"mark"},
    "notch": {"notches"},
    "clip": {"clip", "notch"},
    "press arrow": {"press", "turn in", "dart", "dart pressed", "pleat", "tuck"},
}
_STITCHES = {
    "stitch",
    "staystitch",
    "topstitch",
    "edgestitch",
    "understitch",
    "hem",
    "casing",
    "dart",
    "tuck",
    "buttonhole",
    "zipper",
    "fell",
    "pocket",
    "bind",
    "placket",
    "welt",
}  # fmt: skip


def key_of(figures: Iterable[Figure], folded: Collection[str] = ()) -> list[Key]:
    """Empty where no figure is computed: a designer's own drawings bring their own key.

    folded: the pieces that are drawn as half of what is cut, by their names as figures have them.
    """
    found: set[str] = set()
    for figure in figures:
        if isinstance(figure, Section):
            found |= _of_section(figure)
        elif isinstance(figure, StepFigure):
            found |= _of_step(figure, folded)
    return [Key(kind, words) for kind, words in _WORDS.items() if kind in found]


def _of_section(section: Section) -> set[str]:
    ops = {stage.op for stage in section.stages}
    found = {"right side", "wrong side", "stitching", *(set(section.cloths) & {"lining", "interfacing"})}
    found |= {"cut edge"} if ops & {"trim", "grade"} else set()
    found |= {"fold"} if ops & {"fold", "turn"} else set()
    return found | ({"press arrow"} if ops & {"press", "turn", "fold"} else set())


def _of_step(figure: StepFigure, folded: Collection[str]) -> set[str]:
    marks = {mark.kind for mark in figure.marks}
    found = {f"{cloth.face} side" for cloth in figure.cloths if cloth.cloth == "self"}
    found |= {cloth.cloth for cloth in figure.cloths} & {"lining", "interfacing"}
    found |= {kind for kind, names in _MARKS.items() if marks & names}
    if "fuse" in marks or any(cloth.fused and cloth.face == "wrong" for cloth in figure.cloths):
        found.add("interfacing")
    by_hand = {mark.kind for mark in figure.marks if mark.word == "hand"}
    found |= {"hand stitches"} if by_hand else set()
    if (marks - by_hand) & _STITCHES:
        found.add("stitching")
    if "placket" in marks or any(mark.kind == "welt" and mark.word == "slash" for mark in figure.marks):
        found.add("cut here")
    if any(cloth.halved for cloth in figure.cloths):
        found.add("folded edge")
    if any(cloth.piece in folded for cloth in figure.cloths):
        found.add("centre line")
    if any(cloth.how in ("laid", "under", "over") for cloth in figure.cloths):
        found.add("hidden edge")
    return found
