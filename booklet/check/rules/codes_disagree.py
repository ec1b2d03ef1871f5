"""A stitch or seam code can't be that of the seam it stands beside.

What it finds: an overedge stitch (500 to 522) on a lapped, felled or bound seam; a `class` that is of another kind than
the seam's own construction, such as SSa-1 beside `flat felled`; an overlocked seam or edge with a stitch that is none.

Why it matters at the machine: an overedge stitch goes round a cut edge, and these seams have none under the foot. Of
the word and the code, one is not what is meant.

Wrong:
    steps:
      - {id: lap, title: Lap the sides, work: [{sew: [front.side, back.side], seam: lapped, stitch: 504}]}

Right:
    steps:
      - id: lap
        title: Lap the sides
        work: [{sew: [front.side, back.side], seam: lapped, stitch: 301, class: LSa-1}]

Source: standard: FED-STD-751a / ASTM D6193: lapped seams take a lockstitch or a chainstitch, bound seams one of these
or a coverstitch, neither an overedge stitch.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.codes import class_made, seam_class, stitch_class, stitch_class_meant, written
from booklet.check.found import Found
from booklet.craft.load import table
from booklet.sew.bench import Act, Bench

LEVEL = "warning"


def find(bench: Bench) -> Iterator[Found]:
    for act in bench.acts:
        if "class" in act.entry.options or "stitch" in act.entry.options:
            yield from _of(act)


def _of(act: Act) -> Iterator[Found]:
    seam, stitch = written(act, "class"), written(act, "stitch")
    made, said = class_made(act), seam_class(seam.value.strip()) if seam is not None else ""
    if seam is not None and made and said and made != said:
        yield Found(
            seam.place,
            act.step,
            f"“class: {seam.value.strip()}” is the code of a {_called(said)}, and this is a {_called(made)}.",
            f"Write a code that begins with {made}, or leave “class” out: no code is needed.",
        )
        return
    if stitch is None or not (mine := stitch_class(stitch.value.strip())):
        return
    row, of = table("stitch_classes")[mine], made or said
    meant = stitch_class_meant(act)
    if of in row.get("not seams", ()):
        yield Found(
            stitch.place,
            act.step,
            f"Stitch {stitch.value.strip()} goes round a cut edge, and a {_called(of)} can't be sewn with it.",
            "Write a lockstitch, 301, or a chainstitch, 401; or leave “stitch” out: no code is needed.",
        )
    elif meant and meant != mine:
        yield Found(
            stitch.place,
            act.step,
            f"Stitch {stitch.value.strip()} is a {row['name']}, and to overlock takes an overedge stitch.",
            "Write 504, three threads, or 514, four; or leave “stitch” out: no code is needed.",
        )


def _called(name: str) -> str:
    return str(table("seam_classes")[name]["name"])
