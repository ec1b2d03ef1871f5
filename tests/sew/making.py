"""Patterns made by tests, read without a disk."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any

from booklet.check.engine import check
from booklet.finding import Finding
from booklet.model.build import build_pattern
from booklet.model.pattern import Pattern
from booklet.read.document import read_document
from booklet.read.faults import Faults
from booklet.read.folder import Source
from booklet.read.tree import Mapping
from booklet.sew.bench import Bench

HEAD: dict[str, Any] = {
    "pattern": "Made by a test",
    "studio": "Tests",
    "edition": "1",
    "seam allowance": "1 cm",
    "units": "metric",
    "views": {"A": {"name": "The only one"}},
    "materials": {"self": {"name": "Cloth", "amounts": {"150 cm": "1 m"}}},
}


def source_of(head: dict[str, Any], steps: Sequence[dict[str, Any]], faults: Faults) -> Source:
    """Keys of pattern.yaml and steps as their YAML would load; JSON is YAML, one value a line."""
    files = {
        "pattern.yaml": json.dumps({**HEAD, **head}, indent=1),
        "10-steps.yaml": json.dumps({"section": "Steps", "steps": list(steps)}, indent=1),
    }
    trees = {
        name: tree for name, text in files.items() if isinstance(tree := read_document(name, text, faults), Mapping)
    }
    return Source("", files, trees)


def pattern_of(pieces: dict[str, Any], steps: Sequence[dict[str, Any]]) -> Pattern:
    """A pattern in which nothing is misread."""
    faults = Faults()
    pattern = build_pattern(source_of({"pieces": pieces}, steps, faults), faults)
    assert not faults.findings
    assert pattern is not None
    return pattern


def sewn(pieces: dict[str, Any], steps: Sequence[dict[str, Any]]) -> tuple[list[Finding], Bench]:
    """What is found, and the bench of the one view."""
    findings, (bench,) = check(pattern_of(pieces, steps))
    return findings, bench
