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
    solid = [_box(layer.path, _thick(layer.face)) for layer in scene.layers]
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
    body = _around(solid + [box for box in marks if box not in solid])
    taken: list[Box] = []
    rules: list[Rule] = []
    labels: list[Label] = []
    for measure in scene.measures:
        _measure(measure, body, taken, rules, labels)
    for name in scene.names:
        _name(name, solid + marks, taken, labels)
    everything = [*solid, *marks, *taken, *(_onward(scene, box) for box in solid)]
    return Placed(scene, tuple(labels), tuple(rules), _around(everything))


def loop_round(top: float, bottom: float) -> float:
    """How far the thread of an overlock stands out beyond the cut edge."""
    return min((bottom - top) / 2, 1.1)


def _thick(face: int) -> float:
    return points("cloth", "line") / 2 + (millimetres("cloth", "band") if face else 0)


def _onward(scene: Scene, box: Box) -> Box:
    """The layers with the dashes in which they go on."""
    more = onward_length()
    left = any(layer.onward[0] and layer.path.start[0] <= box.left + 1 for layer in scene.layers)
    right = any(layer.onward[0] and layer.path.start[0] >= box.right - 1 for layer in scene.layers)
    right = right or any(layer.onward[1] for layer in scene.layers)
    return Box(box.left - (more if left else 0), box.top, box.right + (more if right else 0), box.bottom)


def _measure(measure: Measure, body: Box, taken: list[Box], rules: list[Rule], labels: list[Label]) -> None:
    """In the nearest row, counted outwards, where its line, ticks and words meet nothing."""
    off, row, text = (millimetres("measure", name) for name in ("off", "row", "text"))
    tick = millimetres("measure", "tick") / 2
    out = -1 if measure.above else 1
    edge = body.top if measure.above else body.bottom
    for step in range(40):
        y = edge + out * (off + step * row)
        near = edge + out * 0.7
        rule = Rule(measure.start, measure.end, y, near, y + out * tick)
        base = y + text if out > 0 else y - 0.9
        label = Label(measure.words, (measure.start + measure.end) / 2, base, "middle")
        line = Box(measure.start - 0.3, y - tick, measure.end + 0.3, y + tick)
        ticks = [
            Box(x - 0.2, *sorted((near, y))[:1], x + 0.2, sorted((near, y))[1]) for x in (measure.start, measure.end)
        ]
        boxes = [_grown(label.box, 0.5), line, *ticks]
        if not any(box.meets(other) for box in boxes for other in taken):
            break
    rules.append(rule)
    labels.append(label)
    taken += [label.box, line, *ticks]


def _name(name: Name, cloth: list[Box], taken: list[Box], labels: list[Label]) -> None:
    """Beside its layer, or outwards from it until it meets nothing."""
    size = points("words", "size")
    if name.side == 0:
        labels.append(Label(name.words, name.x, name.y + size * 0.25, name.anchor))
        taken.append(labels[-1].box)
        return
    start = name.y + (-2.0 if name.side < 0 else 2.0 + ABOVE * size - 0.35)
    for step in range(80):
        label = Label(name.words, name.x, start + name.side * 0.25 * step, name.anchor)
        if not any(_grown(label.box, 0.35).meets(other) for other in [*cloth, *taken]):
            break
    labels.append(label)
    taken.append(label.box)


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
