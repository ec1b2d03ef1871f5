"""Lays down the starter pattern in a new folder."""

from __future__ import annotations

import shutil
from pathlib import Path

STARTER = Path(__file__).parent / "starter"


def lay_down(folder: Path) -> str:
    """Copies the starter; gives a sentence when it can't, or nothing. Never writes over anything."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        return f"{folder} is there already and not empty; name a new folder."
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for file in sorted(STARTER.glob("*.yaml")):
            shutil.copyfile(file, folder / file.name)
    except OSError as error:
        return f"{folder} can't be written: {error.strerror}."
    return ""
