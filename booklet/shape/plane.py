"""The transforms of SVG. Source: CSS Transforms Module Level 1, the transform functions of SVG."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, NamedTuple

from booklet.shape.outline import BadOutline

if TYPE_CHECKING:
    from booklet.shape.course import Point

_CALL = re.compile(r"\s*,?\s*([a-zA-Z]+)\s*\(([^()]*)\)")
_NUMBER = re.compile(r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[-+]?[0-9]+)?", re.IGNORECASE)


class Plane(NamedTuple):
    """(x, y) -> (a x + c y + e, b x + d y + f)."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def point(self, point: Point) -> Point:
        x, y = point
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def after(self, first: Plane) -> Plane:
        """`first`, then this."""
        return Plane(
            self.a * first.a + self.c * first.b,
            self.b * first.a + self.d * first.b,
            self.a * first.c + self.c * first.d,
            self.b * first.c + self.d * first.d,
            self.a * first.e + self.c * first.f + self.e,
            self.b * first.e + self.d * first.f + self.f,
        )


STILL = Plane()


def plane(written: str) -> Plane:
    """`translate(3 4) rotate(90)`, read from the left. Raises BadOutline for a transform that is none."""
    found, at, written = STILL, 0, written.strip()
    while at < len(written):
        call = _CALL.match(written, at)
        if call is None:
            raise _strange(written)
        found = found.after(_one(call[1], [float(text) for text in _NUMBER.findall(call[2])], written))
        at = call.end()
    return found


def _one(name: str, values: list[float], written: str) -> Plane:
    match name, values:
        case "matrix", [a, b, c, d, e, f]:
            return Plane(a, b, c, d, e, f)
        case "translate", [x, *rest] if len(rest) < 2:
            return Plane(e=x, f=rest[0] if rest else 0.0)
        case "scale", [x, *rest] if len(rest) < 2:
            return Plane(a=x, d=rest[0] if rest else x)
        case "rotate", [angle]:
            return _rotated(angle)
        case "rotate", [angle, x, y]:
            return Plane(e=x, f=y).after(_rotated(angle)).after(Plane(e=-x, f=-y))
        case "skewX", [angle]:
            return Plane(c=math.tan(math.radians(angle)))
        case "skewY", [angle]:
            return Plane(b=math.tan(math.radians(angle)))
        case _:
            raise _strange(written)


def _rotated(angle: float) -> Plane:
    cosine, sine = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return Plane(cosine, sine, -sine, cosine)


def _strange(written: str) -> BadOutline:
    return BadOutline(f"“{written[:40]}” is no transform of SVG.", "Save the drawing again as a plain SVG.")
