"""What a section shows, in words: its alternative text and its caption, from the same numbers as the lines."""

from __future__ import annotations

from fractions import Fraction

from booklet.draw.strip import Strip
from booklet.length import Length
from booklet.plan.plan import Section, Stage

# What is drawn, in the words of the trade.
_CAPTIONS = {
    "plain": "Plain seam",
    "french": "French seam",
    "flat felled": "Flat felled seam",
    "mock felled": "Mock felled seam",
    "lapped": "Lapped seam",
    "enclosed": "Enclosed seam",
    "overlocked": "Overlocked seam",
    "welt": "Welt seam",
    "topstitched": "Topstitched seam",
    "mock french": "Mock French seam",
    "bound": "Bound seam",
    "hong kong": "Hong Kong seam",
    "slot": "Slot seam",
    "piped": "Piped seam",
    "double hem": "Double hem",
    "casing": "Casing",
}
_HEMS = frozenset(
    {"double hem", "blind hem", "rolled hem", "lettuce hem", "faced hem", "bound hem", "bound edge", "casing"}
)
_WRONG_FIRST = frozenset({"french"})


def caption(section: Section) -> str:
    kind = _CAPTIONS.get(section.construction, section.construction.capitalize())
    folds = sum(len(stage.measures) or 1 for stage in section.stages if stage.op == "fold")
    if section.construction == "double hem" and folds < 2:
        kind = "Hem"
    return f"{kind}, from the side"


def shows(section: Section, strip: Strip) -> str:
    kind = section.construction
    through = kind.split()[-1] if kind in _HEMS else "seam"
    parts = [f"Section through the {through} of {_listed(tuple(dict.fromkeys(section.sides)))}."]
    passes = 0
    several = len(strip.pictures) > 1
    for number, picture in enumerate(strip.pictures, start=1):
        said = []
        for stage in picture.stages:
            passes += stage.op == "stitch"
            said.append(_stage(section, stage, passes))
            if stage.op == "stitch" and len(said) > 1 and section.construction == "french":
                said[-1] = said[-1].removeprefix("right sides together, ")
        sentence = "; ".join(words for words in said if words)
        parts.append(f"Stage {number}: {sentence}." if several else f"{sentence[:1].upper()}{sentence[1:]}.")
    parts.append(f"Distances along the cloth are drawn at {_scale(strip.scale)}; its thickness is not to scale.")
    return " ".join(parts)


def _scale(scale: Fraction) -> str:
    percent = scale * 100
    return "life size" if scale == 1 else f"{percent.numerator} percent of life size"


def _stage(section: Section, stage: Stage, passes: int) -> str:
    return {
        "stitch": _stitch,
        "trim": _trim,
        "grade": _grade,
        "clip": _clip,
        "press": _press,
        "turn": _turn,
        "understitch": _understitch,
        "topstitch": _topstitch,
        "finish": _finish,
        "fold": _fold,
        "stitch fold": _stitch_fold,
        "bind": _bind,
    }.get(stage.op, _other)(section, stage, passes)


def _stitch(section: Section, stage: Stage, passes: int) -> str:
    at = f" {_all(stage.measures)}" if stage.measures else ""
    if section.construction == "lapped":
        at = f" {_all(stage.measures)} from the edge on top" if stage.measures[:1] < (section.allowance,) and at else ""
        return f"lapped by {section.allowance}, both right side up, and stitched{at}"
    if section.construction == "slot" and passes == 1:
        return f"right sides together, basted{at} from the edge"
    if section.construction == "piped" and passes == 1:
        return f"right sides together with the piping between, stitched{at} from the edge, close beside the cord"
    if section.construction == "overlocked" and passes == 1:
        return f"right sides together, overlocked{at} from the edge"
    if passes > 1:
        if section.construction == "french":
            return f"right sides together, stitched{at} from the fold, round the cut edges"
        if section.construction == "mock french":
            return "the two folds stitched together, close to the folds"
        return f"stitched again{at} from the edge" if at else "stitched again"
    wrong = section.construction in _WRONG_FIRST or "wrong" in stage.manner
    return f"{'wrong' if wrong else 'right'} sides together, stitched{at} from the edge"


def _trim(section: Section, stage: Stage, passes: int) -> str:
    what = "the under allowance" if section.construction in ("flat felled", "mock felled", "welt") else "the allowances"
    return f"{what} trimmed to {_all(stage.measures)}" if stage.measures else f"{what} trimmed"


def _grade(section: Section, stage: Stage, passes: int) -> str:
    if len(stage.measures) < 2:
        return _trim(section, stage, passes)
    each = [f"{side} to {length}" for side, length in zip(section.sides, stage.measures, strict=False)]
    each += [str(length) for length in stage.measures[len(section.sides) :]]
    return f"the allowances graded, {_listed(tuple(each))}"


def _clip(section: Section, stage: Stage, passes: int) -> str:
    return f"clipped every {_all(stage.measures)}" if stage.measures else f"clipped {stage.manner}".strip()


def _press(section: Section, stage: Stage, passes: int) -> str:
    return f"pressed {stage.manner}".strip()


def _turn(section: Section, stage: Stage, passes: int) -> str:
    if section.construction == "faced hem":
        return f"{section.sides[-1]} turned to the wrong side"
    inside = section.construction == "french"
    return "folded right sides together along the stitching" if inside else "turned right side out"


def _understitch(section: Section, stage: Stage, passes: int) -> str:
    facing = stage.manner.removeprefix("toward ") or section.sides[-1]
    at = f", {_all(stage.measures)} from the seam" if stage.measures else ", close to the seam"
    return f"{facing} understitched to the allowances{at}"


def _topstitch(section: Section, stage: Stage, passes: int) -> str:
    if section.construction == "lapped":
        at = f"{_all(stage.measures)} from" if stage.measures else "close to"
        lapped = "" if passes else f"lapped by {section.allowance}, both right side up, and "
        return f"{lapped}topstitched {at} the edge on top"
    if section.construction == "slot":
        at = f"{_all(stage.measures)} from" if stage.measures else "close to"
        return f"a strip laid under the seam, topstitched {at} the fold on both sides; the basting taken out"
    if not stage.measures:
        return (
            "topstitched close to the fold"
            if section.construction == "flat felled"
            else "topstitched close to the seam"
        )
    return f"topstitched {_all(stage.measures)} from the {'edge' if section.construction in _HEMS else 'seam'}"


def _finish(section: Section, stage: Stage, passes: int) -> str:
    if section.construction == "lettuce hem":
        return "the cut edge stretched and covered with close stitches, so that it ruffles"
    how = {
        "overlock": "overlocked",
        "zigzag": "zigzagged",
        "pink": "pinked",
        "clean": "turned in and stitched",
        "bind": "bound",
    }
    edge = "edge" if section.construction in _HEMS else "edges"
    return f"the cut {edge} {how.get(stage.manner, 'finished')}" + (
        f" at {_all(stage.measures)}" if stage.measures else ""
    )


def _fold(section: Section, stage: Stage, passes: int) -> str:
    if section.construction in _HEMS:
        return (
            f"the edge turned to the wrong side by {_all(stage.measures, ', then ')}"
            if stage.measures
            else "the edge turned to the wrong side"
        )
    if section.construction == "french":
        return "folded right sides together along the stitching"
    if section.construction == "lapped":
        return f"the edge of {section.sides[0]} folded under by {_all(stage.measures) or section.allowance}"
    if section.construction == "mock french":
        by = f" by {_all(stage.measures)}" if stage.measures else ""
        return f"both allowances turned in toward each other{by}"
    at = f", the fold {_all(stage.measures)} from the seam" if stage.measures else ""
    return f"the wide allowance folded round the narrow one{at}"


def _bind(section: Section, stage: Stage, passes: int) -> str:
    if section.construction in ("bound hem", "bound edge"):
        wide = f", {_all(stage.measures)} wide," if stage.measures else ""
        return f"a binding{wide} round the cut edge, stitched through all"
    if section.construction == "hong kong":
        at = f"{_all(stage.measures)} from" if stage.measures else "close to"
        return f"a strip sewn to each allowance {at} its edge, folded round the edge and stitched in the ditch"
    wide = f", {_all(stage.measures)} wide" if stage.measures else ""
    return f"one strip bound round both cut edges{wide}"


def _stitch_fold(section: Section, stage: Stage, passes: int) -> str:
    turns = [length for one in section.stages if one.op == "fold" for length in one.measures or (section.allowance,)]
    inner = "inner fold" if len(turns) > 1 else "cut edge"
    if section.construction == "faced hem":
        return "its free edge turned under and stitched down"
    if section.construction == "blind hem":
        return f"sewn by blind stitches at the {inner}, which only prick the outer cloth"
    if not stage.measures:
        return f"stitched close to the {inner}"
    near = not turns or stage.measures[0] * 2 < turns[-1]
    return f"stitched {_all(stage.measures)} from the {inner if near else 'folded edge'}"


def _other(section: Section, stage: Stage, passes: int) -> str:
    return " ".join(word for word in (stage.op, stage.manner, _all(stage.measures)) if word)


def _all(lengths: tuple[Length, ...], between: str = " and ") -> str:
    return between.join(str(length) for length in lengths)


def _listed(things: tuple[str, ...]) -> str:
    if len(things) < 2:
        return "".join(things)
    return f"{', '.join(things[:-1])} and {things[-1]}"
