"""Where the reading stages put what they find, so that the first fault does not hide the next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.finding import Finding, Place, Related

if TYPE_CHECKING:
    from collections.abc import Iterable

# Enough to see what is wrong with a file; beyond it a list of findings no longer helps its reader. Our choice.
MOST = 200


class Faults:
    """Collects findings. `unread` is set when a file could not be read at all, and nothing can be sewn."""

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.unread = False

    def add(
        self,
        rule: str,
        place: Place,
        says: str,
        mend: str,
        *,
        level: str = "error",
        step: str | None = None,
        related: tuple[Related, ...] = (),
    ) -> None:
        if len(self.findings) < MOST:
            self.findings.append(Finding(rule, level, (), step, place, says, mend, related))

    def unreadable(self, rule: str, place: Place, says: str, mend: str) -> None:
        self.unread = True
        self.add(rule, place, says, mend)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word that a slip of the hand most likely meant, or None. Compared without regard to case."""
    from difflib import get_close_matches

    names = {name.lower(): name for name in known}
    found = get_close_matches(" ".join(word.lower().split())[:80], names, n=1, cutoff=0.6)
    return names[found[0]] if found else None
