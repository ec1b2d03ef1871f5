"""Where words and lines stand already, so that the next words are put elsewhere."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from booklet.shape.course import along, length

if TYPE_CHECKING:
    from booklet.shape.seamline import Flat

# Lines are kept clear of at points this far apart, in px.
EVERY = 4.0


class Room:
    """Boxes taken, by their middle and half their width and height, in px."""

    def __init__(self) -> None:
        self._taken: list[tuple[float, float, float, float]] = []
        self._spots: list[tuple[float, float]] = []

    def keep_clear(self, line: Flat) -> None:
        """Words are not put over it where that can be helped."""
        number = int(length(line) / EVERY) + 1
        self._spots += [along(line, at * EVERY) for at in range(number + 1)]

    def clear(self, x: float, y: float, wide: float, high: float) -> bool:
        """Free, and over no line."""
        over = any(abs(x - at[0]) < wide and abs(y - at[1]) < high for at in self._spots)
        return not over and self.free(x, y, wide, high)

    def clear_along(self, x: float, y: float, angle: float, half: float, high: float) -> bool:
        return all(self.clear(*spot, high, high) for spot in _row(x, y, angle, half, high))

    def free(self, x: float, y: float, wide: float, high: float) -> bool:
        return not any(
            abs(x - other_x) < wide + other_wide and abs(y - other_y) < high + other_high
            for other_x, other_y, other_wide, other_high in self._taken
        )

    def take(self, x: float, y: float, wide: float, high: float) -> None:
        self._taken.append((x, y, wide, high))

    def free_along(self, x: float, y: float, angle: float, half: float, high: float) -> bool:
        """For words at an angle: a row of small boxes."""
        return all(self.free(*spot, high, high) for spot in _row(x, y, angle, half, high))

    def take_along(self, x: float, y: float, angle: float, half: float, high: float) -> None:
        for spot in _row(x, y, angle, half, high):
            self.take(*spot, high, high)


def _row(x: float, y: float, angle: float, half: float, high: float) -> list[tuple[float, float]]:
    number = max(1, math.ceil(half / high))
    steps = [half * (2 * at / number - 1) for at in range(number + 1)]
    return [(x + step * math.cos(angle), y + step * math.sin(angle)) for step in steps]
