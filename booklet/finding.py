"""A finding: what every stage says when something is wrong, where, and how to mend it."""

from __future__ import annotations

from booklet.record import NamedTuple


class Place(NamedTuple):
    """Where something stands. Lines and columns count from 1; `file` is relative to the pattern's folder, "." is it."""

    file: str
    line: int
    column: int
    end_line: int
    end_column: int


class Related(NamedTuple):
    """The other half of a conflict: what stands there, and where."""

    says: str
    place: Place


class Finding(NamedTuple):
    """One thing that is wrong, said once.

    rule: a name under check/rules; level: "error" (cannot be made, or comes out wrong) or "warning" (likely a slip);
    views: the letters for which it holds, in the pattern's order, empty for the whole pattern; step: an id, or None;
    says: a sentence in the words of the trade; mend: what to change; allowed: the writer's reason, where there is one;
    time: of what is found in a film, in seconds from its beginning.
    """

    rule: str
    level: str
    views: tuple[str, ...]
    step: str | None
    place: Place
    says: str
    mend: str
    related: tuple[Related, ...] = ()
    allowed: str | None = None
    time: float | None = None

    def as_json(self) -> dict[str, object]:
        """The public form that `--json` prints."""
        found: dict[str, object] = {
            "rule": self.rule,
            "level": self.level,
            "views": list(self.views),
            "step": self.step,
            "file": self.place.file,
            "line": self.place.line,
            "column": self.place.column,
            "says": self.says,
            "mend": self.mend,
        }
        return found if self.time is None else {**found, "time": self.time}
