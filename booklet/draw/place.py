"""Where a scene's words go: measures outside the layers in rows, names beside their layers, nothing over anything."""

from __future__ import annotations

from typing import NamedTuple

from booklet.draw.cloth import Path
from booklet.draw.ink import millimetres, onward_length, points
from booklet.draw.letters import ABOVE, BELOW, width
from booklet.draw.scene import Measure, Name, Scene


class Box(NamedTuple):
    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        return (
            self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom
        )


class Label(NamedTuple):
    """Words on paper: base line at (x, y), anchored start, middle or end."""

    words: str
    x: float
    y: float
    anchor: str

    @property
    def box(self) -> Box:
        wide, size = width(self.words), points("words", "size")
        left = self.x - {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        return Box(left, self.y - ABOVE * size, left + wide, self.y + BELOW * size)


class Rule(NamedTuple):
    """A measure's line: from x to x at y, with ticks that reach from `near` (towards the cloth) past the line."""

    start: float
    end: float
    y: float
    near: float
    far: float


class Placed(NamedTuple):
    scene: Scene
    labels: tuple[Label, ...]
    rules: tuple[Rule, ...]
    bounds: Box


def place(scene: Scene) -> Placed:
    solid = [_box(Path((part,)), _thick(layer.face)) for layer in scene.layers for part in layer.path.parts]
    marks = [Box(*_sorted(stitch.start, stitch.end)) for stitch in scene.stitches]
    marks += [
        Box(
            min(loop.needle, loop.edge),
            loop.top,
            max(loop.needle, loop.edge) + loop_round(loop.top, loop.bottom),
            loop.bottom,
        )
        for loop in scene.loops
    ]
    marks += [_box(path, millimetres("arrow", "head")) for path in scene.arrows]
    body = _around([*solid, *marks])
    taken = Taken([], [], [])
    rules: list[Rule] = []
    labels: list[Label] = []
    for measure in sorted(scene.measures, key=lambda one: one.end - one.start):
        _measure(measure, body, taken, rules, labels)
    for name in scene.names:
        _name(name, [*solid, *marks, *taken.all], taken.words, labels)
    everything = [*solid, *marks, *taken.all, *_onward(scene)]
    return Placed(scene, tuple(labels), tuple(rules), _around(everything))


def loop_round(top: float, bottom: float) -> float:
    """How far the thread of an overlock stands out beyond the cut edge."""
    return min((bottom - top) / 2, 1.1)


def _thick(face: int) -> float:
    return points("cloth", "line") / 2 + (millimetres("cloth", "band") if face else 0)


def _onward(scene: Scene) -> list[Box]:
    """The dashes in which layers go on, and what was trimmed off."""
    more, half = onward_length(), points("cloth", "line") / 2
    found = [_box(path, 0.1) for path in scene.ghosts]
    for layer in scene.layers:
        ends = [
            (layer.path.start, layer.path.points()[1], layer.onward[0]),
            (layer.path.end, layer.path.points()[-2], layer.onward[1]),
        ]
        for (x, y), (inwards, _), goes_on in ends:
            if goes_on:
                out = x - more if x < inwards else x + more
                found.append(Box(min(x, out), y - half, max(x, out), y + half))
    return found


class Taken(NamedTuple):
    """What stands around the layers already: words, lines and the ticks at their ends."""

    words: list[Box]
    lines: list[Box]
    ticks: list[Box]

    @property
    def all(self) -> list[Box]:
        return [*self.words, *self.lines, *self.ticks]


def _measure(measure: Measure, body: Box, taken: Taken, rules: list[Rule], labels: list[Label]) -> None:
    """In the nearest row, counted outwards, where its line, ticks and words meet nothing.

    The words stand beyond the middle of the line, else at its left, else at its right.
    """
    off, row = millimetres("measure", "off"), millimetres("measure", "row")
    half = millimetres("measure", "tick") / 2
    out = -1 if measure.above else 1
    edge = body.top if measure.above else body.bottom
    for step in range(8):
        y = edge + out * (off + step * row)
        near = edge + out * 0.7
        line = Box(measure.start - 0.3, y - half, measure.end + 0.3, y + half)
        ticks = [Box(x - 0.15, min(near, y), x + 0.15, max(near, y)) for x in (measure.start, measure.end)]
        if _hits([line], [*taken.words, *taken.lines]) or _hits(ticks, taken.words):
            continue
        free = [label for label in _spots(measure, y, out) if not _hits([_grown(label.box, 0.4)], taken.all)]
        if free:
            break
    else:
        free = _spots(measure, y, out)
    rules.append(Rule(measure.start, measure.end, y, near, y + out * half))
    labels.append(free[0])
    taken.words.append(free[0].box)
    taken.lines.append(line)
    taken.ticks.extend(ticks)


def _spots(measure: Measure, y: float, out: int) -> list[Label]:
    level = y + points("words", "size") * 0.24
    return [
        Label(
            measure.words,
            (measure.start + measure.end) / 2,
            y + (millimetres("measure", "text") if out > 0 else -0.9),
            "middle",
        ),
        Label(measure.words, measure.start - 0.9, level, "end"),
        Label(measure.words, measure.end + 0.9, level, "start"),
    ]


def _hits(ours: list[Box], others: list[Box]) -> bool:
    return any(box.meets(other) for box in ours for other in others)


def _name(name: Name, around: list[Box], taken: list[Box], labels: list[Label]) -> None:
    """Beside its layer, or outwards from it until it meets nothing."""
    size, leading = points("words", "size"), millimetres("words", "leading")
    lines = name.words.split("\n")
    if name.side == 0:
        start = name.y + size * 0.25
    elif name.side < 0:
        start = name.y - 2.0 - leading * (len(lines) - 1)
    else:
        start = name.y + 1.65 + ABOVE * size
    for step in range(80 if name.side else 1):
        y = start + name.side * 0.25 * step
        found = [Label(line, name.x, y + leading * place, name.anchor) for place, line in enumerate(lines)]
        if not _hits([_grown(label.box, 0.35) for label in found], around):
            break
    labels += found
    taken += [label.box for label in found]


def _grown(box: Box, by: float) -> Box:
    return Box(box.left - by, box.top - by, box.right + by, box.bottom + by)


def _box(path: Path, thick: float) -> Box:
    found = path.points()
    return _grown(Box(*_sorted(*found)), thick)


def _sorted(*points_: tuple[float, float]) -> tuple[float, float, float, float]:
    xs, ys = [x for x, _ in points_], [y for _, y in points_]
    return min(xs), min(ys), max(xs), max(ys)


def _around(boxes: list[Box]) -> Box:
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )
