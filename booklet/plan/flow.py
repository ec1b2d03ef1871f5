"""How cut pieces flow into parts and parts into the garment: what the map of the garment is drawn from."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple


class Joint(NamedTuple):
    """Where lanes come together, or where a piece alone becomes a part.

    steps: their numbers, each with the views that sew it (one number, or one for each of several views); enters: the
    lanes that end there; makes: the name that the part has from there on, "" where it keeps its own.
    """

    steps: tuple[tuple[int, tuple[str, ...]], ...]
    enters: tuple[Lane, ...] = ()
    makes: str = ""

    @property
    def views(self) -> tuple[str, ...]:
        return tuple(letter for _, letters in self.steps for letter in letters)


class Lane(NamedTuple):
    """A cut piece, and what joins it until it ends at a joint of another lane, or at the end of the pattern.

    key: of the cut piece, by `same_name`; piece: of the pattern piece that it is cut by; called: as the source names
    it; fused: the steps in which it gets its interfacing.
    """

    key: str
    piece: str
    called: str
    cloth: str
    views: tuple[str, ...]
    joints: tuple[Joint, ...] = ()
    fused: tuple[int, ...] = ()

    @property
    def part(self) -> str:
        """What it is called at its end."""
        return next((joint.makes for joint in reversed(self.joints) if joint.makes), self.called)

    def every(self) -> Iterator[Lane]:
        """Itself and every lane that flows into it."""
        yield self
        for joint in self.joints:
            for lane in joint.enters:
                yield from lane.every()


class GarmentMap(NamedTuple):
    """views: all letters of the plan, in their order; lanes: those that end in no other, as a rule one; says: the same
    in sentences, in the order of sewing."""

    views: tuple[str, ...]
    lanes: tuple[Lane, ...]
    title: str
    says: tuple[str, ...]

    @property
    def every(self) -> list[Lane]:
        return [lane for main in self.lanes for lane in main.every()]
