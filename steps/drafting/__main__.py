"""Writes the outlines of every demo pattern into its folder."""

from __future__ import annotations

from steps.drafting.patterns import files
from steps.drafting.tables import STEPS


def main() -> None:
    for name, content in files():
        path = STEPS / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)


if __name__ == "__main__":
    main()
