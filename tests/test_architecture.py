"""The shape of the code is what DEVELOPERS.md says: one way through, light to start, small files."""

from __future__ import annotations

import ast
import json
import re
import statistics
import subprocess
import sys
import warnings
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "booklet"

# The stages in their order: a stage imports itself and earlier ones.
STAGES = ("read", "model", "shape", "sew", "check", "recorded", "plan", "draw", "publish")
SHARED = ("length", "finding", "record", "ready", "craft", "styles_folder")  # every stage may import these
TOP = (
    "cli",
    "pipeline",
    "edges",
    "explain",
    "order",
    "start",
    "tell",
    "tell_order",
)  # the command line's side: these may import every stage
DATA = ("starter", "styles")  # folders that hold no code

# They cost more to import than a whole `check` may take; only what builds a booklet may load them.
HEAVY = ("weasyprint", "jinja2", "markdown_it", "svgwrite", "fontTools", "PIL", "ezdxf", "numpy", "shapely", "webvtt")

MEDIAN_LINES, MOST_LINES = 120, 400


class Import(NamedTuple):
    """One import of the project's own: which file, which line, and the module under `booklet` that it names."""

    file: Path
    line: int
    module: str

    def __str__(self) -> str:
        return f"{self.file.relative_to(ROOT)}:{self.line} imports booklet.{self.module}"


def source_files() -> list[Path]:
    return [path for path in sorted(PACKAGE.rglob("*.py")) if path.relative_to(PACKAGE).parts[0] not in DATA]


def imports_of(path: Path) -> Iterator[Import]:
    """Every import of `booklet.…` in a file: inside functions and for type checking too."""
    package = ("booklet", *path.relative_to(PACKAGE).parts[:-1])
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            base = ".".join(package[: len(package) - node.level + 1]) if node.level else ""
            module = ".".join(part for part in (base, node.module or "") if part)
            names = [f"booklet.{alias.name}" for alias in node.names] if module == "booklet" else [module]
        else:
            continue
        for name in names:
            if name.startswith("booklet."):
                yield Import(path, node.lineno, name.removeprefix("booklet."))


def stage_of(path: Path) -> str:
    """The stage a file belongs to, or its own name where it stands directly in the package."""
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def may_import(here: str, there: str) -> bool:
    """Whether code in `here` (a stage, a shared module, a top one) may import `there`."""
    if here in TOP or there.startswith("__"):
        return True
    if here in SHARED:
        return there in SHARED
    return there in SHARED or (there in STAGES and here in STAGES and STAGES.index(there) <= STAGES.index(here))


def test_every_file_belongs_to_a_stage_or_is_one_of_the_few_shared_modules() -> None:
    """A new folder needs its place in the order before it can be used."""
    known = {*STAGES, *SHARED, *TOP, "__init__", "__main__"}
    strays = [str(path.relative_to(ROOT)) for path in source_files() if stage_of(path) not in known]
    assert strays == []


def test_a_stage_imports_only_earlier_stages() -> None:
    """read -> model -> sew -> check -> plan -> draw -> publish: nothing later reaches back."""
    backwards = [
        str(found)
        for path in source_files()
        for found in imports_of(path)
        if not path.name.startswith("__") or len(path.relative_to(PACKAGE).parts) > 1
        if not may_import(stage_of(path), found.module.split(".")[0])
    ]
    assert backwards == []


@pytest.mark.parametrize(
    ("here", "there", "allowed"),
    [
        ("sew", "model", True),
        ("model", "sew", False),
        ("check", "publish", False),
        ("publish", "draw", True),
        ("craft", "length", True),
        ("craft", "model", False),
        ("plan", "cli", False),
        ("cli", "publish", True),
    ],
)
def test_the_order_is_the_one_that_is_meant(here: str, there: str, allowed: bool) -> None:
    """The rule of this test itself: later to earlier yes, earlier to later no."""
    assert may_import(here, there) is allowed


def test_the_folders_are_those_of_the_architecture_page() -> None:
    """DEVELOPERS.md, under Architecture, names every folder and module of booklet/, and none that is not there."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = re.search(r"^## Architecture$(.*?)(?=^## )", page, re.DOTALL | re.MULTILINE)
    assert section, "DEVELOPERS.md has no section called Architecture"
    tree = re.search(r"^booklet/\n((?:  .*\n)+)", section[1], re.MULTILINE)
    assert tree, "the Architecture section has no block that begins with booklet/"
    named = set(re.findall(r"^  ([a-z_]+(?:/|\.py))(?= )", tree[1], re.MULTILINE))
    there = {f"{path.name}/" for path in PACKAGE.iterdir() if path.is_dir() and path.name != "__pycache__"}
    there |= {path.name for path in PACKAGE.glob("*.py") if not path.name.startswith("__")}
    assert named == there


def test_the_stages_are_named_in_their_order() -> None:
    """The order in DEVELOPERS.md is the order that the imports are held to."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    order = [stage for stage in STAGES if (PACKAGE / stage).is_dir()]
    assert " -> ".join(order) in page


def test_check_loads_none_of_the_heavy_libraries() -> None:
    """`notchbook check` is run at every save: it must not wait for what only a booklet needs.

    Nor for what measures outlines, once they are measured: the first of two runs does that.
    """
    probe = (
        "import json, sys\n"
        "from booklet.cli import main\n"
        "try:\n"
        "    status = main(sys.argv[1:])\n"
        "except SystemExit as stop:\n"
        "    status = stop.code\n"
        "print(json.dumps([status or 0, sorted({name.split('.')[0] for name in sys.modules})]), file=sys.stderr)\n"
    )
    pattern = ROOT / "steps" / "saltmarsh-tunic"
    for _ in ("measured", "kept"):
        run = subprocess.run(
            [sys.executable, "-c", probe, "check", str(pattern)], cwd=ROOT, capture_output=True, text=True, check=False
        )
    status, modules = json.loads(run.stderr.splitlines()[-1])
    assert status == 0, run.stdout
    assert sorted(set(HEAVY) & set(modules)) == []
    assert "yaml" in modules, "the probe did not read a pattern"


def test_files_are_small() -> None:
    """Half of the files fit on two screens; one that outgrows four hundred lines is warned about, not failed."""
    sizes = {path: len(path.read_text(encoding="utf-8").splitlines()) for path in source_files()}
    for path, lines in sizes.items():
        if lines > MOST_LINES:
            warnings.warn(f"{path.relative_to(ROOT)} has {lines} lines: has it more than one reason?", stacklevel=1)
    assert statistics.median(sizes.values()) < MEDIAN_LINES
