"""The measures: a table of ours beside this file, and the charts of the pattern itself."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any

import yaml

HERE = Path(__file__).resolve().parent
STEPS = HERE.parent
MILLIMETRES = {"in": Fraction(254, 10), "cm": Fraction(10), "mm": Fraction(1)}


class Measures:
    """One pattern's measures in millimetres, by size."""

    def __init__(self, pattern: str) -> None:
        source = _read(STEPS / pattern / "pattern.yaml")
        table = _read(HERE / f"{pattern}.yaml")
        self.sizes: list[str] = source.get("sizes") or [""]
        self._rows: dict[str, list[str]] = {}
        self._units: dict[str, str] = {}
        charts = {title: chart for title, chart in source.get("charts", {}).items() if not title.startswith("body")}
        for title, chart in (charts | table).items():
            for name, row in chart["rows"].items():
                for key in (name, f"{title}: {name}"):
                    self._rows[key] = row if isinstance(row, list) else [row] * len(self.sizes)
                    self._units[key] = chart["unit"]

    def of(self, row: str, size: str) -> float:
        """row: its name, or `chart: name` where two charts have one."""
        number = self._rows[row][self.sizes.index(size)]
        return float(sum(Fraction(part) for part in number.split()) * MILLIMETRES[self._units[row]])


def _read(path: Path) -> Any:
    """Every value as text, as the patterns are read: 38 1/2 is not a number of YAML."""
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
