"""What YAML's parser complains of, in a writer's words: most slips of the hand are a few kinds."""

from __future__ import annotations

from typing import Any, NamedTuple

# The most of a writer's line that a sentence repeats.
_SHOWN = 60


class Slip(NamedTuple):
    """line, column: from 1, in signs."""

    line: int
    column: int
    says: str
    mend: str


def slip_of(error: Any, text: str) -> Slip:
    """error: a yaml.MarkedYAMLError of LibYAML; text: the whole file."""
    problem, context = str(error.problem or ""), str(error.context or "")
    here = error.problem_mark or error.context_mark
    begun = error.context_mark or here
    if here is None:
        return Slip(1, 1, *_unknown(problem or context))
    if "mapping values are not allowed" in problem:
        return _at(here, *_stray_colon(text, here))
    if "end of stream" in problem and "quoted" in context:
        return _at(begun, "The quotation mark that opens here is never closed.", "Close it where the words end.")
    if "',' or '" in problem:
        opened, close = ("[", "]") if "']'" in problem else ("{", "}")
        says = f"The “{opened}” that opens here is not closed, or a comma is missing within it."
        return _at(begun, says, f"Close it with “{close}”, and part what is within by commas.")
    if "expected ':'" in problem:
        mend = "Write the colon and a blank after it. Words that go on from the line above begin further in."
        return _at(begun, "This line has no colon after its key.", mend)
    if "block scalar" in context:
        return _at(here, "Words after “>” or “|” begin on the next line.", "Move them there, two blanks further in.")
    if "escape" in problem:
        mend = "Write the backslash twice, or put the words in single quotes."
        return _at(here, "Within double quotes a backslash begins a sign of its own, and this is none.", mend)
    if "cannot start any token" in problem or "anchor" in context or "tag" in context or "alias" in context:
        return _at(begun, *_first_sign(text, begun))
    if "expected '-'" in problem or "expected key" in problem:
        return _at(here, *_astray(text, here))
    return _at(here, *_unknown(problem or context))


def _at(mark: Any, says: str, mend: str) -> Slip:
    return Slip(mark.line + 1, mark.column + 1, says, mend)


def _unknown(problem: str) -> tuple[str, str]:
    plain = " ".join(problem.split()) or "something is missing"
    return (
        f"This can't be read as YAML from here on: {plain}.",
        "Look for a missing colon, quote or bracket in this line or the one above it; "
        "text that has a colon in it goes in quotes or after “>”.",
    )


def _line(text: str, mark: Any) -> str:
    lines = text.splitlines()
    return lines[mark.line] if mark.line < len(lines) else ""


def _stray_colon(text: str, mark: Any) -> tuple[str, str]:
    """A second colon in plain words, or a key that stands further in than those beside it."""
    line = _line(text, mark)
    key, colon, words = line.partition(": ")
    if colon and len(key) < mark.column:
        quote = "'" if '"' in words else '"'
        whole = f"{key.strip().removeprefix('- ')}: {quote}{words.strip()}{quote}"
        mend = f"Write {whole}" if len(whole) <= _SHOWN else "Put all that follows the first colon in quotes"
        return "There is a second colon in this line, and what follows the first is not in quotes.", f"{mend}."
    return (
        "This key stands further in than the line above it allows.",
        "Let it begin under the key that it stands beside. After a “-” comes a blank.",
    )


def _first_sign(text: str, mark: Any) -> tuple[str, str]:
    sign = _line(text, mark)[mark.column : mark.column + 1]
    if sign == "\t":
        return "A tab stands here.", "Write a blank instead."
    return f"Words can't begin with “{sign}” unless they are in quotes.", "Put the whole in quotes."


def _astray(text: str, mark: Any) -> tuple[str, str]:
    """A line that begins where it should not; or something after what was whole already."""
    line = _line(text, mark)
    left = line[mark.column :].strip()
    if not line[: mark.column].strip():
        return (
            "This line does not begin under the lines that it belongs to.",
            "Let the keys of one step begin under one another, and so each “-” of one list.",
        )
    before = line[: mark.column].rpartition(": ")[2].strip()
    if before[:1] in ("*", "&", "!"):
        return f"Words can't begin with “{before[:1]}” unless they are in quotes.", "Put the whole in quotes."
    return (
        f"“{left[:_SHOWN]}” is left over, after the quote or bracket before it has closed.",
        "Take it out; or close further on. Within quotes, use the other kind of quotation mark.",
    )
