"""The page of a row: what it says, its numbers and codes, its figure in words, and its source."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from booklet.check.codes import seam_class
from booklet.craft.load import operations, table
from booklet.explain.figure import shown
from booklet.explain.kinds import KINDS, Row

# How are the columns of the tables called on a page? A column that is not here is called by its own name.
_CALLED = {
    "iso": "ISO 4916",
    "us": "The older number",
    "home": "At home it takes",
    "how": "Written",
    "uses": "For",
    "takes": "Takes of the allowance",
    "cloths": "Suits",
    "edges": "Edges",
    "not for": "Does not suit",
    "not seams": "Makes no seam of class",
    "also": "Also called",
    "spi": "Stitches an inch",
    "mm": "Millimetres",
    "rows": "Rows of stitching",
    "usual": "Usual turns",
    "depth": "Depth, from and to",
    "least": "At least",
    "most": "At most",
    "thread": "Thread for a seam of length 1",
    "held": "Not pressed open, because",
    "needs": "Needs",
    "unsuited": "Harms",
    "operations": "Written as",
    "ages": "Ages, from and to",
    "made of": "Made of stitches",
    "fastens": "Fastens the garment",
    "needs work": "Used by an entry of `work`",
    "with": "Takes another piece or a binding",
}
# Columns that are said in another place, or are there for the checker.
_UNSAID = frozenset({"source", "says", "name", "first", "last", "flat", "encloses", "codes", "hazard", "when", "step",
                     "words", "work", "notion", "flare", "bench", "tool", "minutes", "options", "line",
                     "figure"})  # fmt: skip
# Where a row's `uses`, `leaves` and `then` are sentences about the cloth, and `says` what a step prints.
_WORKED = frozenset({"constructions", "hems", "zippers", "pockets", "plackets"})


def page(kind: str, name: str) -> str:
    row: Row = table(kind)[name]
    title = f"{row['name']}, {name}" if kind in ("stitches", "stitch_classes", "seam_types", "seam_classes") else name
    lines = [f"{title}: {KINDS[kind].called}", ""]
    if kind == "operations":
        lines += _operation(name)
    else:
        lines += _row(kind, row)
    figure = shown(kind, name)
    if figure:
        lines += ["", f"Figure, of a typical case: {figure}"]
    return "\n".join([*lines, "", *_codes(kind, row), *_sources(row)])


def whole_table(kind: str) -> str:
    """The names of a table's rows, for who knows no name yet."""
    rows = {name: row for name, row in table(kind).items() if isinstance(row, dict)}
    width = max(map(len, rows), default=0)
    lines = [f"  {name:{width}}  {_short(row)}".rstrip() for name, row in rows.items()]
    cited = dict.fromkeys(row["source"] for row in rows.values())
    return "\n".join(
        [f"{KINDS[kind].called[:1].upper()}{KINDS[kind].called[1:]}, one of these:", "", *lines, "",
         f"Source: {'; '.join(cited)}"]
    )  # fmt: skip


def class_page(word: str) -> str:
    """For a seam code that is rightly made and of which we hold the class alone; "" for any other word."""
    code, _, rest = word.partition(" ")
    mine = seam_class(code[:2].upper() + code[2:])
    if not mine or (rest and not rest.isdecimal()):
        return ""
    row = table("seam_classes")[mine]
    return (
        f"{mine}{code[2:]}: a seam code of ASTM D6193\n\nIts class is {mine}, {row['name']}. {row['says']} "
        f"The standard draws the type; the tool has no page for it.\n\nSource: {row['source']}"
    )


def _operation(name: str) -> Iterator[str]:
    operation = operations()[name]
    yield f"Takes: {operation.takes}."
    yield f"Keys beside it: {', '.join(operation.options) or 'none'}."
    says = "the words of its construction." if operation.says == "{construction}" else operation.says
    yield f"A step with no text prints: {says}"
    if operation.tool:
        yield f"Tool: {operation.tool}."


def _row(kind: str, row: Row) -> Iterator[str]:
    worked = kind in _WORKED
    if "says" in row and not worked:
        yield f"{row['says']}"
    if row.get("encloses") == "true":
        yield "No raw edge is left to be seen."
    for column, value in row.items():
        if column in _UNSAID or column.endswith(" source"):
            continue
        called = "What becomes of the allowance" if worked and column == "uses" else _CALLED.get(column)
        yield f"{called or column.capitalize()}: {_said(value)}".rstrip(".") + "."
    if kind == "constructions" and "needs" not in row:
        yield "Needs: no number of its own."
    if "says" in row and worked:
        yield f"A step with no text prints: {row['says']}"


def _said(value: Any) -> str:
    """A cell in words: a list with commas, a table by its keys, and its own source in brackets."""
    if isinstance(value, dict) and "example" in value:
        return f"{value['says']}, as in “{value['example']}”"
    if isinstance(value, dict):
        own = value.get("source")
        plain = {key: cell for key, cell in value.items() if key != "source"}
        words = next(map(_said, plain.values())) if len(plain) == 1 else "; ".join(
            f"{key} {_said(cell)}" for key, cell in plain.items()
        )  # fmt: skip
        return f"{words} ({own})" if own else words
    if isinstance(value, list):
        return ", ".join(map(str, value))
    return {"true": "yes", "false": "no"}.get(str(value), str(value))


def _short(row: Row) -> str:
    if "us" in row:
        return f"US {row['us']}, {row['weight']}: {', '.join(row['cloths'])}"
    if "spi" in row:
        return f"{'–'.join(row['spi'])} an inch, {'–'.join(row['mm'])} mm"
    if "most" in row and "least" in row:
        return f"{row['least']} to {row['most']}"
    return str(row.get("name") or ", ".join(row.get("words", ())) or row.get("hazard") or row.get("says", ""))


def _codes(kind: str, row: Row) -> Iterator[str]:
    codes = row.get("codes") or {}
    if codes:
        said = (f"{system.upper()} {str(code).replace('(M)', '(from memory)')}" for system, code in codes.items())
        yield f"Codes: {', '.join(said)}."


def _sources(row: Row) -> Iterator[str]:
    """The row's own, those of its columns, and the full titles of the works that they name."""
    sources = [row["source"]]
    yield f"Source: {row['source']}"
    for column, value in row.items():
        if column.endswith(" source"):
            sources.append(value)
            yield f"Source of the {column.removesuffix(' source')}: {value}"
    cited = "\n".join(sources)
    for words, work in table("works").items():
        if words in cited:
            year = work["year"] if work["year"] != "not given" else "year not given"
            yield f"Cited: {work['title']}. {work['by']}, {year}."
