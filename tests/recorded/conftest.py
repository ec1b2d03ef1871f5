"""A long pattern, for measuring."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from booklet.recorded.takes import candidates
from tests.generate import generate
from tests.recorded.scores import pattern_of

if TYPE_CHECKING:
    from booklet.recorded.takes import Candidate


@pytest.fixture(scope="module")
def many_steps(tmp_path_factory: pytest.TempPathFactory) -> list[Candidate]:
    folder = tmp_path_factory.mktemp("many") / "cloth"
    generate(200, folder)
    return candidates(pattern_of(folder), "B")
