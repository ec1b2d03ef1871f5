"""The tests' own idea of a garment, simpler than the bench and apart from it: what hangs together after each step, and
which step closes which edge. By it a mutant is judged before the checker is asked.

It reads the plain source and nothing of booklet/sew or booklet/check. Where it can't tell, the mutant is `unsure`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from tests.faults.sample import Sample

Edge = tuple[str, str]

CLOSING = ("sew", "hem", "casing", "close", "zipper", "bind", "pocket")
# These speak of the seam sewn last unless they say which, so that a step that begins with one hangs on the step before.
OF_THE_LAST = ("trim", "grade", "clip", "notch", "press", "insert", "understitch", "topstitch", "edgestitch", "finish")


class Sewn:
    """One view. steps: the numbers of its steps in order; whole: what hangs together with what a step touches, by step;
    closed: edge -> the step that closes it; crossing: who names what."""

    def __init__(self) -> None:
        self.steps: list[int] = []
        self.whole: dict[int, set[str]] = {}
        self.named: dict[int, set[str]] = {}
        self.edges: dict[int, set[Edge]] = {}
        self.makers: dict[str, list[int]] = {}
        self.closed: dict[Edge, int] = {}
        self.seamed: dict[Edge, int] = {}
        self.seams: dict[str, int] = {}
        self.tied: set[int] = set()

    def apart(self, one: int, two: int) -> bool:
        """Two steps that work on different pieces, which hang together nowhere yet, and speak of nothing in common."""
        if one not in self.whole or two not in self.whole:
            return True  # another view's step
        return not self.whole[one] & self.whole[two] and two not in self.tied and one not in self.tied


def _names(value: Any) -> list[str]:
    if isinstance(value, str):
        return [value]
    if isinstance(value, list):
        return [name for one in value for name in _names(one)]
    return []


def same(name: str) -> str:
    return " ".join(name.lower().split())


def neighbours(sample: Sample, edge: Edge) -> list[Edge]:
    """The edges that meet it at a corner of its piece."""
    ring = list(sample.head["pieces"][edge[0]]["edges"])
    at = ring.index(edge[1])
    return [(edge[0], ring[at - 1]), (edge[0], ring[(at + 1) % len(ring)])]


def sew(sample: Sample, view: str) -> Sewn:
    sewn = Sewn()
    pieces = {same(name): name for name, data in sample.head["pieces"].items() if view in sample.views(data)}
    parts = {name: {piece} for name, piece in pieces.items()}
    hangs = {piece: {piece} for piece in pieces.values()}

    def join(those: set[str]) -> set[str]:
        joined = set().union(*(hangs[piece] for piece in those))
        for piece in joined:
            hangs[piece] = joined
        return joined

    for step in sample.steps:
        if view not in sample.views(step.data):
            continue
        number = step.number
        sewn.steps.append(number)
        touched: set[str] = set()
        named = {same(use) for use in _names(step.data.get("uses", []))}
        edges: set[Edge] = set()
        for use in named:
            touched |= parts.get(use, set())
        for index, entry in enumerate(e for e in sample.entries if e.step.number == number):
            main = _names(entry.value) if entry.operation not in ("insert", "press", "trim", "grade", "clip") else []
            others = [entry.data[key] for key in ("on", "to", "with", "through", "of", "into") if key in entry.data]
            if entry.operation == "press":
                main = [entry.value.removeprefix("toward ")] if entry.value.startswith("toward ") else []
            unnamed = not {"of", "into"} & set(entry.data) and not any("." in name for name in main)
            if index == 0 and entry.operation in OF_THE_LAST and unnamed:
                sewn.tied.add(number)
            here: set[str] = set()
            for name in [*main, *_names(others)]:
                part, _, edge = same(name).partition(".")
                if part not in parts:
                    if part in sewn.seams:
                        here |= sewn.whole.get(sewn.seams[part], set())
                    continue
                named.add(part)
                found = {
                    (piece, own)
                    for piece in parts[part]
                    for own in sample.head["pieces"][piece]["edges"]
                    if same(own) == edge
                }
                if name in main and entry.operation in CLOSING:
                    for one in sorted(found - set(sewn.closed)):
                        sewn.closed[one] = number
                        if entry.operation == "sew":
                            sewn.seamed[one] = number
                edges |= found
                here |= {piece for piece, _ in found} if found else parts[part]
            if entry.operation == "pocket":
                for name in main:
                    for piece in parts.get(same(name), set()):
                        for own in sample.head["pieces"][piece]["edges"]:
                            sewn.closed.setdefault((piece, own), number)
            if entry.operation in ("sew", "zipper", "pocket", "tack", "bind", "baste") and here:
                join(here)
            if "as" in entry.data:
                sewn.seams[same(entry.data["as"])] = number
            touched |= here
        sewn.whole[number] = set().union(*(hangs[piece] for piece in touched)) if touched else set()
        sewn.named[number] = named
        sewn.edges[number] = edges
        if "makes" in step.data:
            made = same(step.data["makes"])
            parts[made] = join(sewn.whole[number]) if sewn.whole[number] else set()
            sewn.makers.setdefault(made, []).append(number)
    return sewn
