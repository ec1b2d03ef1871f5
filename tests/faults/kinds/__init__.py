"""The kinds of fault, by what they change. Importing this package enters all of them."""

from tests.faults.kinds import drops, harmless, moves, names, numbers, order, scope, sheet

__all__ = ["drops", "harmless", "moves", "names", "numbers", "order", "scope", "sheet"]
