"""The command `notchbook`, run as a user runs it: a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMOS = ("saltmarsh-tunic", "lantern-tote", "pebble-joggers")


def command(*arguments: str | Path) -> list[str]:
    return [sys.executable, "-m", "booklet.cli", *map(str, arguments)]


def environment(**more: str) -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8", **more}


def notchbook(*arguments: str | Path, cwd: Path | None = None, **variables: str) -> subprocess.CompletedProcess[str]:
    """Runs it to its end. `variables`: of the environment."""
    return subprocess.run(
        command(*arguments),
        cwd=cwd,
        env=environment(**variables),
        capture_output=True,
        encoding="utf-8",
        check=False,
        timeout=1200,  # a build of all demos takes a minute; a machine may be busy
    )


def contents(folder: Path) -> dict[str, bytes]:
    """Every file under a folder, by its path from there."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
