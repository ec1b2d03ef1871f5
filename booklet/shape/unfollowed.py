"""What an SVG may hold that moves or sizes a shape and is not followed: it is said, before a wrong measure is taken."""

from __future__ import annotations

import re

from booklet.shape.outline import BadOutline

# `transform: scale(2)`, but not `text-transform: none` or `transform: none`.
_MOVES = re.compile(r"(?:\A|[;{\s])transform\s*:\s*(?!none\b)", re.IGNORECASE)
_PLAIN = "Save the drawing again as a plain SVG."


def unfollowed(tag: str, own: dict[str, str]) -> str:
    """Why what is drawn in an element is not in its place for us; "" where it is."""
    if _MOVES.search(own.get("style", "")):
        return "is moved by its style (CSS), which is not followed"
    if own.get("transform-origin", "").strip(" 0px,") and own.get("transform"):
        return "is turned about a point of its own (transform-origin), which is not followed"
    if tag == "svg" and any(own.get(key) for key in ("viewBox", "x", "y")):
        return "stands in a drawing within the drawing, whose scale is not followed"
    return ""


def refuse_unfollowed(why: str, tag: str, own: dict[str, str]) -> None:
    """Raises BadOutline for a mark that can't be taken in its place or its size. why: as `unfollowed` says it."""
    name = next((own[key][:40] for key in ("data-name", "label", "id", "class") if own.get(key)), tag)
    if why:
        raise BadOutline(f"“{name}” {why}.", _PLAIN)
    for key in ("x", "y", "width", "height", "x1", "y1", "x2", "y2", "cx", "cy", "r", "rx", "ry"):
        if match := re.search(r"(?:[0-9.]\s*)(%|r?em|ex|ch|v[wh]|vmin|vmax)\s*\Z", own.get(key, "")):
            raise BadOutline(
                f"“{name}” is measured in {match[1]} ({key}: {own[key][:20]}), which is no length of its own.",
                "Draw it in mm or in the drawing's own units.",
            )


def refuse_moving_style(sheet: str) -> None:
    """Raises BadOutline for a style sheet that moves things."""
    if _MOVES.search(sheet):
        raise BadOutline(
            "The style sheet of this drawing moves what is drawn (transform), which is not followed.", _PLAIN
        )


def refuse_unsized(own: dict[str, str]) -> None:
    """Raises BadOutline for a drawing with a viewBox that does not say how large that is on paper."""
    written = [f"{key}=“{own[key][:20]}”" for key in ("width", "height") if own.get(key)]
    raise BadOutline(
        "This drawing does not say how large it is: "
        + (f"it has {' and '.join(written)}, which is no length." if written else "it has a viewBox, but no width."),
        "Save it with a width and a height in mm, cm or in.",
    )
