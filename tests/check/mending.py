"""Does what a finding's mend says, where the mend is mechanical: moves a step, writes a measure, a word or a name.

The mends are read as a writer reads them, by the forms of their own sentences; nothing of the finding but its mend and
its places is used.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from booklet.finding import Finding, Place

MEASURE = r"(?:\d+ )?\d+(?:[./]\d+)? (?:in|cm|mm|m|yd)\b"
STEP = r"step \d+, “(?P<{}>[^”]+)”"
_ITEM = re.compile(r"^  - ", re.MULTILINE)


class Form(NamedTuple):
    """One way in which a mend is said, and how it is done; `do` gives the new text of the file, None where it can't."""

    name: str
    says: re.Pattern[str]
    do: Callable[[str, Finding, re.Match[str]], str | None]


def mended(folder: Path, finding: Finding) -> str:
    """Does it, and gives the name of the form; "" where the mend asks for judgement."""
    for form in FORMS:
        said = form.says.match(finding.mend)
        if said is None:
            continue
        file = folder / _place(form, finding).file
        text = form.do(file.read_text(encoding="utf-8"), finding, said)
        if text is not None:
            file.write_text(text, encoding="utf-8")
            return form.name
    return ""


def form_of(mend: str) -> str:
    return next((form.name for form in FORMS if form.says.match(mend)), "")


def _place(form: Form, finding: Finding) -> Place:
    return finding.related[0].place if form.name == "trim to" else finding.place


def _span(text: str, place: Place) -> tuple[int, int]:
    lines = text.splitlines(keepends=True)
    start = sum(map(len, lines[: place.line - 1])) + place.column - 1
    end = sum(map(len, lines[: place.end_line - 1])) + place.end_column - 1
    return start, end


def _replaced(text: str, place: Place, new: str) -> str:
    start, end = _span(text, place)
    return text[:start] + new + text[end:]


def _items(text: str) -> tuple[str, list[str], str]:
    """What stands before the steps of a section, each step, and what stands after them."""
    head, _, rest = text.partition("steps:\n")
    starts = [match.start() for match in _ITEM.finditer(rest)]
    after = re.search(r"^\S", rest, re.MULTILINE)
    end = after.start() if after else len(rest)
    steps = [rest[at:to] for at, to in zip(starts, [*starts[1:], end], strict=True)]
    return f"{head}steps:\n", steps, rest[end:]


def _titled(steps: list[str], title: str) -> int | None:
    found = [
        at for at, step in enumerate(steps) if re.search(rf"title: [\"']?{re.escape(title)}[\"']?\s*[,}}\n]", step)
    ]
    return found[0] if len(found) == 1 else None


def _move(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    head, steps, tail = _items(text)
    here, there = _titled(steps, said["moved"]), _titled(steps, said["other"])
    if here is None or there is None:
        return None
    step = steps.pop(here)
    steps.insert(_titled(steps, said["other"]) + (said["side"] == "after"), step)  # type: ignore[operator]
    return head + "".join(steps) + tail


def _write(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    """A measure or a word in the place of what stands there; a bound is met by the bound itself."""
    start, end = _span(text, finding.place)
    old = text[start:end]
    new = said["new"]
    measure = re.search(MEASURE, old)
    if measure and re.fullmatch(MEASURE, new):
        if "here and in the text" in finding.mend:
            return text.replace(measure[0], new)
        rest = text[end:]
        if said.groupdict().get("other"):
            rest = re.sub(rf"\A(\s*\(){MEASURE}", lambda bracket: bracket[1] + said["other"], rest)
        return text[:start] + old.replace(measure[0], new, 1) + rest
    if measure:
        return None
    if "." in old and "." not in new:  # the part alone is another
        new += old[old.index(".") :]
    return _replaced(text, finding.place, new)


def _set(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    """A key and its value: of the entry in which the finding's place lies, new or in the place of the old value."""
    start, _ = _span(text, finding.place)
    opened, closed = _braces(text, start)
    entry = text[opened:closed]
    key = re.compile(rf"\b{re.escape(said['key'])}: (?:\[[^\]]*\]|[^,}}\]]+)")
    if key.search(entry):
        entry = key.sub(lambda _: f"{said['key']}: {said['value']}", entry, count=1)
        return text[:opened] + entry + text[closed:]
    return f"{text[:closed]}, {said['key']}: {said['value']}{text[closed:]}"


def _cut(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    """Another operation in the place of the one that stands there."""
    start, _ = _span(text, finding.place)
    old = re.compile(r"[a-z]+: [^,}]+").match(text, start)
    return f"{text[:start]}{said['key']}: {said['value']}{text[old.end() :]}" if old else None


def _count(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    start, _ = _span(text, finding.place)
    opened, closed = _braces(text, start)
    return text[:opened] + re.sub(r"count: \d+", f"count: {said['value']}", text[opened:closed]) + text[closed:]


def _braces(text: str, at: int) -> tuple[int, int]:
    """The inside of the innermost {…} round a place."""
    depth, opened = 0, at
    while opened > 0:
        opened -= 1
        depth += {"}": 1, "{": -1}.get(text[opened], 0)
        if depth < 0:
            break
    depth, closed = 0, at
    while closed < len(text):
        depth += {"{": 1, "}": -1}.get(text[closed], 0)
        if depth < 0:
            break
        closed += 1
    return opened + 1, closed


def _add(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    """One more entry beside the one at the finding's place. “press:” alone is written with a direction."""
    start, _ = _span(text, finding.place)
    opened, closed = _braces(text, start)
    entry = f"{{{said['entry']}}}" if not said["entry"].endswith(":") else f"{{{said['entry']} as sewn}}"
    if "before" in said["side"]:
        return f"{text[: opened - 1]}{entry}, {text[opened - 1 :]}"
    return f"{text[: closed + 1]}, {entry}{text[closed + 1 :]}"


def _limit(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    """`for:` of a step, as one is told to write it."""
    head, steps, tail = _items(text)
    at = _titled(steps, said["limited"])
    if at is None or "for:" in steps[at]:
        return None
    steps[at] = steps[at].replace(
        "title:", f"{said['scope']}, title:" if "{id" in steps[at] else f"{said['scope']}\n    title:", 1
    )
    return head + "".join(steps) + tail


def _add_views(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    head, steps, tail = _items(text)
    at = _titled(steps, said["limited"])
    if at is None:
        return None
    scope = re.search(r"for: (\[[^\]]*\]|[^,}\n]+)", steps[at])
    if scope is None:
        return None
    words = ", ".join([scope[1].strip("[] "), said["views"].replace(" and ", ", ")])
    steps[at] = steps[at].replace(scope[0], f"for: [{words}]", 1)
    return head + "".join(steps) + tail


def _makes(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    head, steps, tail = _items(text)
    at = _titled(steps, said["maker"])
    if at is None or "makes: " not in steps[at]:
        return None
    steps[at] = re.sub(r"makes: [^,}\n]+", f"makes: {said['new']}", steps[at])
    return head + "".join(steps) + tail


def _trim(text: str, finding: Finding, said: re.Match[str]) -> str | None:
    start, _ = _span(text, finding.related[0].place)
    found = re.compile(rf"trim: {MEASURE}").match(text, start)
    return f"{text[:start]}trim: {said['new']}{text[found.end() :]}" if found else None


def _form(name: str, says: str, do: Callable[[str, Finding, re.Match[str]], str | None]) -> Form:
    return Form(name, re.compile(says), do)


_MOVED = rf"Move {STEP.format('moved')}, to (?P<side>before|after) {STEP.format('other')}(?:\.|;)"
_MEASURED = rf"Write (?P<new>{MEASURE})(?: \((?P<other>{MEASURE})\))?(?: or (?:less|more))?(?:,|;|\.| here| for)"
_ADDED = r"Add “(?P<entry>[^”]+)” (?P<side>before the understitching|after the turning|right after this entry)"
FORMS = (
    _form("move", _MOVED, _move),
    _form("write a measure", _MEASURED, _write),
    _form("stitch at", rf"(?:Baste|Staystitch) at (?P<new>{MEASURE})", _write),
    _form("trim to", rf"Trim to (?P<new>{MEASURE})\.", _trim),
    _form("trim in place", rf"Trim to (?P<new>{MEASURE}) or less", _write),
    _form("write a cut", r"Write “(?P<key>clip|notch|trim): (?P<value>[^”]+)”, or correct", _cut),
    _form("write makes", rf"Write “makes: (?P<new>[^”]+)” in {STEP.format('maker')}", _makes),
    _form("write a key", r"Write “(?P<key>[a-z]+): (?P<value>[^”]*\d[^”]*|all)”(?:,|\.)(?! in the)", _set),
    _form("write toward", r"Write “(?P<new>toward [^”]+)”", _write),
    _form("did you mean", r"Did you mean “(?P<new>[^”]+)”\?", _write),
    _form("make so many", r"Make (?P<value>\d+), or correct the number of", _count),
    _form("add an entry", _ADDED, _add),
    _form("limit a step", rf"Limit {STEP.format('limited')}, with “(?P<scope>for: [^”]+)”", _limit),
    _form("add a view", rf"Make it here too: add (?P<views>.+?) to the “for:” of {STEP.format('limited')}", _add_views),
)
