"""What tests of several stages share."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.command import DEMOS, ROOT, notchbook


@pytest.fixture(scope="session")
def demos(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All demos with all their outputs, built once. What asks for it belongs to the group `demos`."""
    into = tmp_path_factory.mktemp("demos")
    done = notchbook(
        "build", *(ROOT / "steps" / name for name in DEMOS), "--each-view", "--into", into, PYTHONHASHSEED="1"
    )
    assert done.returncode == 0, done.stderr
    return into
