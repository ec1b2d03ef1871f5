"""Plain records for the stages that `check` runs.

Why not dataclasses: importing them and making thirty classes costs 20 ms of the 100 that a check may take. A Record is
made by keyword or in the order of its fields; type checkers read it like a dataclass. Compared by identity.
"""

from __future__ import annotations

from collections import namedtuple
from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TypeVar, cast, dataclass_transform

if TYPE_CHECKING:
    from typing import NamedTuple as NamedTuple
else:

    class _Naming(type):
        def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> type:
            if not bases:
                return super().__new__(cls, name, bases, body)
            fields = tuple(body.get("__annotations__", ()))
            made = namedtuple(name, fields, defaults=[body[field] for field in fields if field in body])
            made.__module__ = body["__module__"]
            for word, value in body.items():
                if word not in fields and word not in ("__qualname__", "__module__"):
                    setattr(made, word, value)
            return made

    class NamedTuple(metaclass=_Naming):
        """As typing's, which compiles every annotation to look at it: half of the time such a class takes."""


_Made = TypeVar("_Made")


class _Fresh:
    __slots__ = ("make",)

    def __init__(self, make: Callable[[], Any]) -> None:
        self.make = make


def fresh(*, default_factory: Callable[[], _Made]) -> _Made:
    """A default that each record gets one of its own of, such as a list."""
    return cast("_Made", _Fresh(default_factory))


@dataclass_transform(eq_default=False, field_specifiers=(fresh,))
class Record:
    """Fields are the annotations of the class, in their order; a value beside one is its default."""

    _fields: tuple[str, ...] = ()
    _fresh: tuple[tuple[str, Callable[[], Any]], ...] = ()

    def __init_subclass__(cls) -> None:
        own = tuple(name for name in cls.__annotations__ if not name.startswith("_"))
        cls._fields = (*cls._fields, *own)
        for name in own:
            default = cls.__dict__.get(name)
            if isinstance(default, _Fresh):
                cls._fresh = (*cls._fresh, (name, default.make))
                delattr(cls, name)

    def __init__(self, *values: Any, **named: Any) -> None:
        own = self.__dict__
        own.update(zip(self._fields, values, strict=False))
        own.update(named)
        for name, make in self._fresh:
            if name not in own:
                own[name] = make()
