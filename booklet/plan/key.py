"""The key to the figures: a row for each tone and line that they use, and none that they don't."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.plan.plan import Figure, Key, Section

# What is drawn whatever the section, and what only where one asks for it. The words are the trade's.
_ALWAYS = (
    Key("right side", "Right side of the fabric"),
    Key("wrong side", "Wrong side of the fabric"),
    Key("stitching", "Stitching"),
)
_CUT = Key("cut edge", "Cut edge; what is trimmed off is dashed")
_FOLD = Key("fold", "Fold")
_PRESS = Key("press arrow", "Press, turn or fold this way")


def key_of(figures: Iterable[Figure]) -> list[Key]:
    """Empty where no section is computed: a designer's own drawings bring their own key."""
    sections = [figure for figure in figures if isinstance(figure, Section)]
    if not sections:
        return []
    cloths = {cloth for section in sections for cloth in section.cloths}
    ops = {stage.op for section in sections for stage in section.stages}
    right, wrong, stitching = _ALWAYS
    rows = [right, wrong]
    rows += [Key(cloth, cloth.capitalize()) for cloth in ("lining", "interfacing") if cloth in cloths]
    rows.append(stitching)
    rows += [_CUT] if ops & {"trim", "grade"} else []
    rows += [_FOLD] if ops & {"fold", "turn"} else []
    rows += [_PRESS] if ops & {"press", "turn", "fold"} else []
    return rows
