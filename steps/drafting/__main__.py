"""Writes the outlines of every demo pattern into its folder."""

from __future__ import annotations

from steps.drafting.patterns import FILES
from steps.drafting.tables import STEPS


def main() -> None:
    for name, content in FILES.items():
        path = STEPS / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content())


if __name__ == "__main__":
    main()
