"""What `make bench` prints: speed, memory and repeatability, and which faults the checker tells.

Ratios of medians, measured in one run and interleaved.

Whole processes are timed, as a user waits for them: start-up, imports and all. Names of parts run those alone:
python tests/bench.py start growth
"""

from __future__ import annotations

import hashlib
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

from tests.generate import generate

ROOT = Path(__file__).resolve().parent.parent
TOOLS = ROOT / "tests" / "tools"
PATTERNS = [ROOT / "steps" / name for name in ("saltmarsh-tunic", "lantern-tote", "pebble-joggers")]
TUNIC = PATTERNS[0]
NOTCHBOOK = Path(sys.executable).with_name("notchbook")

# Compiled files are kept, as on a user's machine; where that is switched off, every start would compile anew.
_ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}

Command = Sequence[str | Path]


class Taken(NamedTuple):
    """What one process took: seconds on the clock, and its largest resident memory in MiB."""

    seconds: float
    mebibytes: float


def run(command: Command, **environment: str) -> Taken:
    """One process, to its end. Raises RuntimeError with its words when it fails."""
    with tempfile.TemporaryFile() as words:
        begin = time.perf_counter()
        process = subprocess.Popen(
            [str(part) for part in command], stdout=words, stderr=words, cwd=ROOT, env={**_ENVIRONMENT, **environment}
        )
        _, status, usage = os.wait4(process.pid, 0)
        seconds = time.perf_counter() - begin
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            words.seek(0)
            said = words.read(2000).decode(errors="replace")
            raise RuntimeError(f"{' '.join(map(str, command))} ended with {process.returncode}:\n{said}")
    unit = 1 if sys.platform == "darwin" else 1024  # getrusage counts in bytes there, in KiB on Linux
    return Taken(seconds, usage.ru_maxrss * unit / 2**20)


def interleaved(commands: Mapping[str, Command], runs: int) -> dict[str, Taken]:
    """Medians of each command, taken in turns so that a slow minute of the machine meets all; one round to warm up."""
    taken: dict[str, list[Taken]] = {name: [] for name in commands}
    for number in range(runs + 1):
        for name, command in commands.items():
            result = run(command)
            if number:
                taken[name].append(result)
    return {
        name: Taken(statistics.median(one.seconds for one in all_), statistics.median(one.mebibytes for one in all_))
        for name, all_ in taken.items()
    }


def line(name: str, taken: Taken) -> None:
    print(f"  {name:<44} {taken.seconds * 1000:9.0f} ms {taken.mebibytes:7.0f} MiB")


def start(folder: Path) -> None:
    """How long does a designer wait for `check`, against the least that reads YAML?"""
    runs = 15
    print(f"check of {TUNIC.name} (medians of {runs})")
    taken = interleaved(
        {
            "python -c 'import yaml'": [sys.executable, "-c", "import yaml"],
            "notchbook check": [NOTCHBOOK, "check", TUNIC],
        },
        runs,
    )
    for name, one in taken.items():
        line(name, one)
    bare, check = (one.seconds for one in taken.values())
    print(f"  ratio {check / bare:.2f}   (at most 4, aim 3)\n")


def booklet(folder: Path) -> None:
    """How much does the tool add to what WeasyPrint itself takes for the same pages?"""
    runs = 5
    print(f"build of one booklet, {TUNIC.name}, letter (medians of {runs})")
    run([sys.executable, TOOLS / "leave_html.py", TUNIC, folder])
    taken = interleaved(
        {
            "WeasyPrint alone, same HTML and CSS": [
                sys.executable, TOOLS / "plain_weasyprint.py", folder / "booklet.html", folder / "plain.pdf",
            ],
            "notchbook build --paper letter": [
                NOTCHBOOK, "build", TUNIC, "--paper", "letter", "--into", folder / "build",
            ],
        },
        runs,
    )  # fmt: skip
    for name, one in taken.items():
        line(name, one)
    plain, build = (one.seconds for one in taken.values())
    print(f"  ratio {build / plain:.2f}   (at most 1.15; the build makes the page, the lists and the film files too)\n")


def growth(folder: Path) -> None:
    """Do time and memory of `check` grow with the steps, and no faster?"""
    runs = 3
    sizes = (100, 1_000, 10_000)
    print(f"check of generated patterns (medians of {runs})")
    for steps in sizes:
        generate(steps, folder / str(steps))
    taken = interleaved({f"{steps:,} steps": [NOTCHBOOK, "check", folder / str(steps)] for steps in sizes}, runs)
    for name, one in taken.items():
        line(name, one)
    small, middle, large = taken.values()
    few, many = sizes[1] - sizes[0], sizes[2] - sizes[1]
    # Between two sizes, so that what every start costs drops out.
    time_few, time_many = (middle.seconds - small.seconds) / few, (large.seconds - middle.seconds) / many
    room_few, room_many = (middle.mebibytes - small.mebibytes) / few, (large.mebibytes - middle.mebibytes) / many
    print(f"  a step more: {time_few * 1000:.3f} ms, {room_few * 1024:.1f} KiB from 100 to 1,000")
    print(f"               {time_many * 1000:.3f} ms, {room_many * 1024:.1f} KiB from 1,000 to 10,000")
    print(f"  ratio of the two: time {time_many / time_few:.2f}, memory {room_many / room_few:.2f}   (1 is linear)")
    print(f"  10,000 steps in {large.seconds:.2f} s   (at most 5)\n")
    views_grow(folder)


def views_grow(folder: Path) -> None:
    """Does each view more cost the same?"""
    runs, steps = 3, 1_000
    counts = (1, 2, 4, 8)
    print(f"check of a generated pattern of {steps:,} steps, by its views (medians of {runs})")
    for count in counts:
        generate(steps, folder / f"views {count}", count)
    taken = interleaved({f"views: {count}": [NOTCHBOOK, "check", folder / f"views {count}"] for count in counts}, runs)
    for name, one in taken.items():
        line(name, one)
    _, two, four, eight = (one.seconds for one in taken.values())
    few, many = (four - two) / 2, (eight - four) / 4
    print(f"  a view more: {few * 1000:.0f} ms from 2 to 4, {many * 1000:.0f} ms from 4 to 8")
    print(f"  ratio of the two: {many / few:.2f}   (1 is linear)\n")


def hashes(folder: Path) -> dict[str, str]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}


def same_bytes(folder: Path) -> None:
    """Do two builds of the same source, from two folders and with two hash seeds, give the same bytes?"""
    print("two builds from two folders")
    for pattern in PATTERNS:
        built = []
        for place, seed in (("here", "1"), ("a place with a longer name", "2")):
            source = folder / place / pattern.name
            shutil.copytree(pattern, source)
            into = folder / place / "build"
            run([NOTCHBOOK, "build", source, "--each-view", "--into", into], PYTHONHASHSEED=seed)
            built.append(hashes(into / pattern.name))
        first, second = built
        differing = sorted(name for name in first.keys() | second.keys() if first.get(name) != second.get(name))
        verdict = f"DIFFERENT: {', '.join(differing)}" if differing else "the same bytes"
        print(f"  {pattern.name:<20} {len(first)} files, {verdict}")
    print()


def figures(folder: Path) -> None:
    """How long does a step's figure take, and how large is it?"""
    from booklet.draw.flat.picture import draw_picture
    from tests.draw.flat_figures import asked

    runs = 3
    print(f"figures of the pieces, each as in a first build: outlines and requests read anew (the best of {runs} runs)")
    for pattern in PATTERNS:
        least: dict[object, float] = {}
        sizes = {}
        for _ in range(runs):
            wanted, shapes = asked(pattern.name)
            for figure in wanted:
                begin = time.process_time()
                drawing = draw_picture(figure, shapes)
                least[figure] = min(least.get(figure, float("inf")), time.process_time() - begin)
                sizes[figure] = len(drawing.svg) if drawing is not None else 0
        times, kilobytes = [one * 1000 for one in least.values()], statistics.median(sizes.values()) / 1000
        print(
            f"  {pattern.name:<20} {len(wanted):4} figures, {statistics.median(times):5.1f} ms in the median, "
            f"{statistics.mean(times):5.1f} in the mean   (at most 20); median {kilobytes:.1f} kB   (at most 15)"
        )
    print()


def faults(folder: Path) -> None:
    """Which share of single faults does the checker tell, and does it tell any where there is none?"""
    from tests.faults.bench import run as put_in
    from tests.faults.bench import samples, table

    most = 12
    patterns = samples()
    print(f"single faults in {len(patterns)} sound patterns, at most {most} of a kind in each")
    print(table(list(put_in(patterns, most))), "\n")


def film(folder: Path) -> None:
    """Which share of a film's chapters is found in loose speech, is any sure and wrong, and how long does it take?"""
    from tests.recorded.bench import demo, speech, table

    print("chapters found in captions alone (near: within 10 s of the truth; wrong: sure and not near)")
    print(table([demo(), *speech(seeds=2)]))
    print("  the goal: 95 % near, none sure and wrong\n")
    many = folder / "many"
    generate(200, many)
    print("captions of three hours, 3,000 cues, and 200 steps")
    sizes = (750, 1_500, 3_000)
    command: list[str | Path] = [sys.executable, "-m", "tests.recorded.bench", many]
    runs: dict[str, Command] = {"reading the pattern alone": [*command, "0"]}
    runs |= {f"{cues:,} cues": [*command, str(cues)] for cues in sizes}
    taken = interleaved(runs, 3)
    for name, one in taken.items():
        line(name, one)
    least, few, middle, most = taken.values()
    print(f"  3,000 cues in {most.seconds - least.seconds:.2f} s   (at most 3)")
    ratio = (most.mebibytes - middle.mebibytes) / 2 / max(middle.mebibytes - few.mebibytes, 0.1)
    print(f"  memory of the second 1,500 cues to that of the 750 before: {ratio:.2f}   (1 is linear)\n")


PARTS = {
    "start": start,
    "booklet": booklet,
    "growth": growth,
    "bytes": same_bytes,
    "figures": figures,
    "faults": faults,
    "film": film,
}


def main() -> None:
    for name in sys.argv[1:] or PARTS:
        with tempfile.TemporaryDirectory(prefix="notchbook-bench-") as folder:
            PARTS[name](Path(folder))


if __name__ == "__main__":
    main()
