"""Puts every fault into every pattern, one at a time, and counts what the checker tells of it."""

from __future__ import annotations

import gc
import pkgutil
import random
from collections.abc import Iterator, Sequence
from importlib import import_module
from typing import NamedTuple

import booklet.check.move
from tests.faults import kinds
from tests.faults.draft import FOLDERS, Draft
from tests.faults.fault import KINDS, SAME, UNSURE, WRONG, Fault
from tests.faults.misses import why
from tests.faults.sample import Sample

for module in pkgutil.iter_modules(kinds.__path__):
    import_module(f"{kinds.__name__}.{module.name}")  # which enters its kinds


class Row(NamedTuple):
    """One kind. places: where it fits; tried: of these (the rest left out by chance, the same each time); of the tried:
    wrong: those that change the garment; caught, placed: of the wrong; same: those that don't; alarms: of the same;
    unsure: those that the tests can't judge; spoken: of the unsure, with a finding; misses, astray, false: by name.
    """

    kind: str
    places: int
    tried: int
    wrong: int
    caught: int
    placed: int
    same: int
    alarms: int
    unsure: int
    spoken: int
    misses: tuple[str, ...]
    astray: tuple[str, ...]
    false: tuple[str, ...]


def samples() -> list[Sample]:
    return [Sample(folder) for folder in FOLDERS]


def drawn(kind: str, sample: Sample, most: int) -> tuple[int, list[Fault]]:
    """How many faults of a kind fit, and `most` of them at the most: by chance, but the same each time."""
    faults = list(KINDS[kind](sample))
    chosen = faults if len(faults) <= most else random.Random(f"{kind} {sample.name}").sample(faults, most)
    return len(faults), chosen


def run(all_samples: Sequence[Sample], most: int, every: int = 1) -> Iterator[Row]:
    """Every kind in turn, each in `every`-th pattern, beginning with another one for each kind.

    Mends are not looked for meanwhile: only what is found matters here, and it is quicker."""
    tries, booklet.check.move.MOST_STEPS = booklet.check.move.MOST_STEPS, 0
    gc.disable()  # one mutant leaves little, and each would be searched for what is left of all
    try:
        for index, kind in enumerate(KINDS):
            fitting = [sample for sample in all_samples if any(True for _ in KINDS[kind](sample))]
            yield _row(kind, fitting[index % every :: every] or fitting[:1], most)
            gc.collect()
    finally:
        gc.enable()
        booklet.check.move.MOST_STEPS = tries


def _row(kind: str, all_samples: Sequence[Sample], most: int) -> Row:
    places = tried = caught = placed = spoken = 0
    judged = {WRONG: 0, SAME: 0, UNSURE: 0}
    misses: list[str] = []
    astray: list[str] = []
    false: list[str] = []
    for sample in all_samples:
        fit, faults = drawn(kind, sample, most)
        places += fit
        tried += len(faults)
        for fault in faults:
            draft = Draft(sample.source)
            fault.edit(draft)
            judged[fault.verdict] += 1
            name = f"{sample.name}: {fault.where}"
            try:
                found = draft.findings()
            except Exception as error:  # a checker that stops tells nothing, and says so here by name
                (false if fault.verdict == SAME else misses).append(f"{name} (stopped: {error!r})")
                continue
            if fault.verdict == SAME and found:
                false.append(f"{name} ({', '.join(sorted({finding.rule for finding in found}))})")
            elif fault.verdict == UNSURE:
                spoken += bool(found)
            elif fault.verdict == WRONG and not found:
                misses.append(name)
            elif fault.verdict == WRONG:
                caught += 1
                at = fault.placed(found)
                placed += at
                if not at:
                    astray.append(f"{name} ({', '.join(sorted({finding.rule for finding in found}))})")
    return Row(
        kind, places, tried, judged[WRONG], caught, placed, judged[SAME], len(false), judged[UNSURE], spoken,
        tuple(misses), tuple(astray), tuple(false),
    )  # fmt: skip


NO_REASON = "NOT EXPLAINED"


def table(rows: Sequence[Row]) -> str:
    """The rows, their sums, and every miss, stray finding and false alarm by name."""
    head = f"{'kind of fault':<66} {'places':>6} {'tried':>6} {'wrong':>6} {'caught':>6} {'placed':>6} {'missed':>6}"
    head += f" {'same':>5} {'false':>5} {'unsure':>6} {'spoken':>6}"
    lines = [head]
    sums = [sum(column) for column in zip(*(row[1:10] for row in rows), strict=True)]
    for name, numbers in [*((row.kind, list(row[1:10])) for row in rows), ("all", sums)]:
        places, tried, wrong, caught, placed, same, alarms, unsure, spoken = numbers
        lines.append(
            f"{name[:66]:<66} {places:>6} {tried:>6} {wrong or '':>6} {caught if wrong else '':>6} "
            f"{placed if wrong else '':>6} {wrong - caught or '':>6} {same or '':>5} {alarms if same else '':>5} "
            f"{unsure or '':>6} {spoken if unsure else '':>6}"
        )
    for title, names in (
        (
            "missed",
            [f"{row.kind} | {name} | {why(row.kind, name) or NO_REASON}" for row in rows for name in row.misses],
        ),
        ("found, but not at the fault", [f"{row.kind} | {name}" for row in rows for name in row.astray]),
        ("false alarms", [f"{row.kind} | {name}" for row in rows for name in row.false]),
    ):
        lines += ["", f"{title}: {len(names)}", *(f"  {name}" for name in names)]
    return "\n".join(lines)
