"""What was recorded, in one form whatever file it came from."""

from __future__ import annotations

from typing import NamedTuple


class Cue(NamedTuple):
    """One caption: what is said from `start` to `end`, in seconds of the film. line: where its words begin."""

    start: float
    end: float
    text: str
    line: int


class Marker(NamedTuple):
    """A named moment, in seconds of the film. line: where it stands in its file."""

    start: float
    name: str
    line: int


class Recording(NamedTuple):
    """One of the two: captions or markers. file: its path in the pattern's folder."""

    file: str
    cues: tuple[Cue, ...] = ()
    markers: tuple[Marker, ...] = ()

    @property
    def ends(self) -> float:
        """The end of the film, as far as it is known."""
        return max([*(cue.end for cue in self.cues), *(marker.start for marker in self.markers)], default=0.0)


class BadRecording(ValueError):
    """Why a file is not taken: what is wrong, the mend, and in which line."""

    def __init__(self, says: str, mend: str, line: int = 1) -> None:
        super().__init__(says)
        self.says = says
        self.mend = mend
        self.line = line


class Slip(NamedTuple):
    """A line of a file that could not be read, where the others could."""

    line: int
    says: str
    mend: str


def clock(seconds: float) -> str:
    """`0:07`, `12:05`, `1:02:05`: whole seconds, rounded down, as a player shows them."""
    minutes, rest = divmod(int(seconds), 60)
    if minutes < 60:
        return f"{minutes}:{rest:02d}"
    return f"{minutes // 60}:{minutes % 60:02d}:{rest:02d}"
