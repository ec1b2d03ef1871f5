"""What tests of several stages share."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command import DEMOS, ROOT, notchbook

SMALLEST = "lantern-tote"


@pytest.fixture(scope="session")
def demos(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All demos with all their outputs, built once, the smallest with a booklet a view besides.

    What asks for it belongs to the group `demos`.
    """
    into = tmp_path_factory.mktemp("demos")
    build_demos(ROOT / "steps", into, PYTHONHASHSEED="1")
    return into


def build_demos(steps: Path, into: Path, cwd: Path = ROOT, **environment: str) -> None:
    for names, options in (([name for name in DEMOS if name != SMALLEST], []), ([SMALLEST], ["--each-view"])):
        done = notchbook("build", *(steps / name for name in names), *options, "--into", into, cwd=cwd, **environment)
        assert done.returncode == 0, done.stderr
