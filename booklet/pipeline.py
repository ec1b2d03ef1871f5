"""The whole story: read -> model -> sew -> check -> plan -> draw -> publish."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from booklet.read.faults import Faults
from booklet.read.folder import read_folder

if TYPE_CHECKING:
    from collections.abc import Sequence

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.sew.bench import Bench


class Checked(NamedTuple):
    """A pattern that was read and sewn. `pattern` is None where it could not be read; `unread` says that a file could not."""

    name: str
    pattern: Pattern | None
    benches: list[Bench]
    findings: list[Finding]
    unread: bool

    @property
    def open_findings(self) -> list[Finding]:
        """Those that the writer has not allowed."""
        return [finding for finding in self.findings if finding.allowed is None]

    @property
    def errors(self) -> list[Finding]:
        return [finding for finding in self.open_findings if finding.level == "error"]


def check_folder(folder: Path, views: Sequence[str] | None = None) -> Checked:
    """read -> model -> sew -> check."""
    from booklet.check.engine import check, in_order
    from booklet.model.build import build_pattern

    faults = Faults()
    source = read_folder(folder, faults)
    pattern = None if faults.unread else build_pattern(source, faults)
    name = folder.resolve().name
    if pattern is None:
        return Checked(name, None, [], in_order(faults.findings), True)
    findings, benches = check(pattern, views)
    return Checked(name, pattern, benches, in_order([*faults.findings, *findings]), faults.unread)
