"""Fixtures and docstring examples of rules: snippets on the base pattern, written to a folder and checked.

A snippet may hold `steps:` (a section) and top-level keys of pattern.yaml, which take the place of the base's. A key
such as `film.yaml:` holds that file; raw files are fences with a file name, as in ```yaml film.yaml. What YAML could
not show comes as ```hex NAME, in bytes, or as ```fill NAME BYTES, the same lines again and again. `art/front.svg` is
there, and
`pieces.svg`, the outlines of the base's pieces and of a few plain ones; `outlines: pieces.svg` has them read.
"""

from __future__ import annotations

import re
import textwrap
from pathlib import Path
from typing import NamedTuple

from booklet.check.engine import rules
from booklet.finding import Finding
from booklet.pipeline import Checked, check_folder, with_film

HERE = Path(__file__).parent
BASE = (HERE / "base" / "pattern.yaml").read_text(encoding="utf-8")
OUTLINES = (HERE / "base" / "pieces.svg").read_text(encoding="utf-8")
_BLOCK = re.compile(r"^(?=\S)", re.MULTILINE)
_CASE = re.compile(r"^## (?P<title>.+)$", re.MULTILINE)
_FENCE = re.compile(
    r"^```(?P<kind>yaml|text|hex|fill)(?: (?P<file>\S+))?(?: (?P<size>[0-9]+))?\n(?P<body>.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
_DRAWING = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10"><path d="M1 1h8v8z"/></svg>\n'


class Case(NamedTuple):
    title: str
    snippet: str
    files: dict[str, bytes]
    expected: str
    span: tuple[int, int]


def cases(path: Path) -> list[Case]:
    """The cases of one fixture file; `span` is where the expected text stands in the file."""
    text = path.read_text(encoding="utf-8")
    heads = list(_CASE.finditer(text))
    found = []
    for head, after in zip(heads, [*[h.start() for h in heads[1:]], len(text)], strict=True):
        snippet, files, expected, span = "", {}, "", (0, 0)
        for fence in _FENCE.finditer(text, head.end(), after):
            if fence["kind"] == "text":
                expected, span = fence["body"].strip(), fence.span("body")
            elif fence["file"]:
                files[fence["file"]] = _bytes(fence["kind"], fence["body"], int(fence["size"] or 0))
            else:
                snippet = fence["body"]
        found.append(Case(head["title"].strip(), snippet, files, expected, span))
    return found


def _bytes(kind: str, body: str, size: int) -> bytes:
    if kind == "hex":
        return bytes.fromhex(body)
    data = body.encode()
    return data if kind == "yaml" else (data * (size // len(data) + 1))[:size]


def write_pattern(folder: Path, snippet: str, files: dict[str, bytes] | None = None) -> None:
    """The base pattern with the snippet's keys and steps, and raw files last."""
    folder.mkdir(parents=True, exist_ok=True)
    blocks = {block.split(":", 1)[0]: block for block in _BLOCK.split(BASE) if block.strip()}
    steps = ""
    for block in _BLOCK.split(snippet):
        key = block.split(":", 1)[0]
        if key == "steps":
            steps = block
        elif key.endswith(".yaml"):
            (folder / key).write_text(textwrap.dedent(block.partition("\n")[2]), encoding="utf-8")
        elif block.strip():
            blocks[key] = block
    (folder / "art").mkdir(parents=True, exist_ok=True)
    (folder / "art" / "front.svg").write_text(_DRAWING, encoding="utf-8")
    (folder / "pieces.svg").write_text(OUTLINES, encoding="utf-8")
    (folder / "pattern.yaml").write_text("".join(blocks.values()), encoding="utf-8")
    if steps:
        (folder / "10-steps.yaml").write_text(
            steps + ("" if steps.endswith("\n") else "\n") + "section: Sewing\n", encoding="utf-8"
        )
    for name, body in (files or {}).items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(body)


def findings(folder: Path, rule: str) -> list[Finding]:
    return [finding for finding in checked_for(folder, rule).findings if finding.rule == rule]


def checked_for(folder: Path, rule: str) -> Checked:
    """Checked; and where the rule is of the film, held against what was filmed."""
    checked = check_folder(folder)
    return with_film(checked) if getattr(rules()[rule], "FOUND_BY", "") == "recorded" else checked


def spelled(found: list[Finding]) -> str:
    """Findings as fixtures write them: level, views, place, step; then the sentence and the mend."""
    lines = []
    for finding in found:
        place = finding.place
        views = "".join(finding.views) or "-"
        allowed = f" (allowed: {finding.allowed})" if finding.allowed else ""
        lines.append(f"{finding.level} {views} {place.file}:{place.line}:{place.column} {finding.step or '-'}{allowed}")
        lines.append(f"  {finding.says}")
        lines.append(f"  {finding.mend}")
    return "\n".join(lines) or "Nothing found."


def examples(docstring: str) -> dict[str, str]:
    """`Wrong:` and `Right:` of a rule's docstring, as snippets."""
    found = {}
    for head in ("Wrong", "Right"):
        match = re.search(rf"^{head}:\n((?: {{4}}.*\n|\n)+)", docstring, re.MULTILINE)
        if match:
            found[head] = textwrap.dedent(match[1])
    return found
