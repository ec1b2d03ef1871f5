"""Writes a valid pattern of any number of steps, for measuring how `check` grows: python tests/generate.py 1000 FOLDER

A quilted cloth in rows of panels, sewn as steps/README.md says, which has nothing to find. View A leaves out what
view B topstitches, and so on in turn. One section a row; pieces, sections and files grow with the steps.
"""

from __future__ import annotations

import sys
from pathlib import Path
from string import ascii_uppercase

ROW = 10  # panels in a row
CLOSING = 4  # steps of the last section: the hem round the cloth

HEAD = """\
pattern: Generated cloth of {steps} steps
studio: Bench
edition: "1.0"
about: A cloth in rows of panels. It exists to be measured.
seam allowance: 5/8 in
metric: {{5/8 in: 1.5 cm, 1/2 in: 1.3 cm}}
views:
{views}materials:
  self: {{name: Main fabric, kind: woven, amounts: {{45 in: {{{amounts}}}}}}}
  fusible: {{name: Light fusible interfacing, kind: interfacing, amounts: {{20 in: 1 yd}}}}
tools: [shears, pins]
pieces:
"""

PIECE = """\
  {name}:
    number: {number}
    cut: {{self: 1{fusible}}}
    edges:
      top: {{{top}}}
      right: {{{right}}}
      bottom: {{{bottom}}}
      left: {{{left}}}
"""

# A seam's work and the words that say the same, three constructions in turn. The numbers are those of steps/README.md.
SEAMS = (
    (
        "        seam: french\n        passes: [3/8 in, 1/4 in]\n        trim: 1/8 in\n      - press: toward {panel}\n",
        "Stitch at 3/8 in with wrong sides together, trim to 1/8 in, turn, and stitch at 1/4 in.",
    ),
    (
        "      - finish: seam\n        how: overlock\n      - press: toward {panel}\n",
        "Stitch at 5/8 in, right sides together. Overlock the allowances as one; press them toward {{piece: {panel}}}.",
    ),
    (
        "        seam: flat felled\n        trim: 1/4 in\n        width: 3/8 in\n",
        "Stitch at 5/8 in, trim the under allowance to 1/4 in and fell the seam at 3/8 in.",
    ),
)


class Cloth:
    """The pattern while it is written: pieces in one text, a list of steps for each section."""

    def __init__(self) -> None:
        self.pieces: list[str] = []
        self.sections: list[tuple[str, list[str]]] = []
        self.steps = 0

    def section(self, title: str) -> None:
        self.sections.append((title, []))

    def step(self, name: str, title: str, body: str) -> None:
        self.steps += 1
        self.sections[-1][1].append(f"  - id: {name}\n    title: {title}\n{body}")


def panel_name(row: int, column: int) -> str:
    return f"panel {row}-{column}"


def add_panel(cloth: Cloth, row: int, column: int, *, last_row: bool) -> None:
    """A panel, its staystitching, and the seam that joins it to its row."""
    panel, here = panel_name(row, column), f"{row}-{column}"
    outer = "allowance: 1 in"
    fused = column % 4 == 0
    cloth.pieces.append(
        PIECE.format(
            name=panel,
            number=len(cloth.pieces) + 1,
            fusible=", fusible: 1" if fused else "",
            top=outer if row == 1 else "",
            right=outer if column == ROW else "",
            bottom=outer if last_row else "",
            left=outer if column == 1 else "",
        )
    )
    work = f"      - staystitch: {panel}.left\n        at: 1/2 in\n" + (f"      - fuse: {panel}\n" if fused else "")
    cloth.step(
        f"hold {here}",
        f"Staystitch panel {here}",
        f"    work:\n{work}    text: >\n      Stitch 1/2 in from the left edge of {{piece: {panel}}}, to hold it.\n",
    )
    if column == 1:
        return
    before = f"row {row}" if column > 2 else panel_name(row, column - 1)
    work, words = SEAMS[column % len(SEAMS)]
    cloth.step(
        f"join {here}",
        f"Join panel {here} to its row",
        f"    work:\n      - sew: [{before}.right, {panel}.left]\n{work.format(panel=panel)}    makes: row {row}\n"
        f"    text: >\n      {words.format(panel=panel)} {{step: hold {here}}} comes before.\n",
    )
    if column % len(SEAMS) == 1:  # an overlocked seam, which lies toward this panel
        cloth.step(
            f"topstitch {here}",
            f"Topstitch beside panel {here}",
            f"    for: topstitched\n    work:\n      - topstitch: {panel}.left\n        at: 1/4 in\n"
            f"    text: >\n      Topstitch {{piece: {panel}}} 1/4 in from the seam.\n",
        )


def add_row(cloth: Cloth, row: int, *, last_row: bool) -> None:
    """A row of panels, and the seam that joins it to the rows above."""
    cloth.section(f"Row {row}")
    for column in range(1, ROW + 1):
        add_panel(cloth, row, column, last_row=last_row)
    if row > 1:
        above = "row 1" if row == 2 else "cloth"
        cloth.step(
            f"row {row}",
            f"Join row {row} to the rows above",
            f"    work:\n      - sew: [{above}.bottom, row {row}.top]\n      - finish: seam\n        how: overlock\n"
            f"      - press: toward row {row}\n    makes: cloth\n",
        )


def add_hem(cloth: Cloth, name: str) -> None:
    cloth.section("Hem")
    for edge in ("left", "right", "top", "bottom"):
        cloth.step(
            f"hem {edge}",
            f"Hem the {edge} edge",
            f"    work:\n      - hem: {name}.{edge}\n        turns: [1/2 in, 1/2 in]\n"
            f"    text: >\n      Turn 1/2 in, then 1/2 in again, and stitch.\n",
        )


def steps_in_row(row: int) -> int:
    overlocked = sum(column % len(SEAMS) == 1 for column in range(2, ROW + 1))
    return ROW + (ROW - 1) + overlocked + (row > 1)


def head(steps: int, views: int) -> str:
    """The views are plain and topstitched in turn; a single one is both."""
    letters = ascii_uppercase[:views]
    words = ["plain, topstitched"] if views == 1 else [("plain", "topstitched")[at % 2] for at in range(views)]
    rows = [
        f"  {letter}: {{name: {word.capitalize().replace(',', ' and')} cloth, with: [{word}]}}\n"
        for letter, word in zip(letters, words, strict=True)
    ]
    return HEAD.format(steps=steps, views="".join(rows), amounts=", ".join(f"{letter}: 2 yd" for letter in letters))


def generate(steps: int, folder: Path, views: int = 2) -> None:
    """Lay down a pattern of exactly so many steps, at least one row's and the hem's. The folder must not exist.

    views: at most 26.
    """
    cloth = Cloth()
    rows, budget = 0, steps - CLOSING
    while budget >= steps_in_row(rows + 1):
        rows += 1
        budget -= steps_in_row(rows)
    if rows == 0:
        raise ValueError(f"a pattern of {steps} steps is too short; the least is {CLOSING + steps_in_row(1)}")
    for row in range(1, rows + 1):
        add_row(cloth, row, last_row=row == rows)
    name = "row 1" if rows == 1 else "cloth"
    add_hem(cloth, name)
    for number in range(steps - cloth.steps):
        cloth.step(f"press {number + 1}", f"Press, {number + 1}", f"    work:\n      - press part: {name}\n")

    folder.mkdir(parents=True)
    text = head(steps, views) + "".join(cloth.pieces)
    (folder / "pattern.yaml").write_text(text, encoding="utf-8", newline="\n")
    for index, (title, bodies) in enumerate(cloth.sections, 1):
        text = f"section: {title}\nsteps:\n" + "".join(bodies)
        (folder / f"{index:04d}-section.yaml").write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    generate(int(sys.argv[1]), Path(sys.argv[2]))
