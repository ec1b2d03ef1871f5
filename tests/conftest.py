"""What tests of several stages share."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.command import DEMOS, ROOT, notchbook


@pytest.fixture(scope="session", autouse=True)
def _cache_of_our_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """What the program keeps from run to run is kept out of the home of whoever runs the tests."""
    before = {name: os.environ.get(name) for name in ("XDG_CACHE_HOME", "LOCALAPPDATA")}
    os.environ.update(dict.fromkeys(before, str(tmp_path_factory.mktemp("cache"))))
    yield
    for name, value in before.items():
        if value is None:
            del os.environ[name]
        else:
            os.environ[name] = value


@pytest.fixture(scope="session")
def demos(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """All demos with all their outputs on A4, built once. What asks for it belongs to the group `demos`."""
    into = tmp_path_factory.mktemp("demos")
    done = notchbook(
        "build",
        *(ROOT / "steps" / name for name in DEMOS),
        *("--paper", "a4", "--each-view", "--into", into),
        PYTHONHASHSEED="1",
    )
    assert done.returncode == 0, done.stderr
    return into
