"""Small text outputs kept beside the tests. WRITE_GOLDEN=1 writes them anew."""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = Path(__file__).parent / "golden"


def check_golden(name: str, made: bytes) -> None:
    """Holds an output to `tests/golden/NAME`, byte by byte."""
    path = FOLDER / name
    if os.environ.get("WRITE_GOLDEN"):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(made)
    assert path.is_file(), f"no golden output {name}: run the test once with WRITE_GOLDEN=1"
    assert made.decode() == path.read_bytes().decode()
