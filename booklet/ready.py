"""What every check needs, kept in one file: two hundred modules and the tables of the trade.

One by one they take a fifth of its time to find, open and read. The file lies where Python keeps compiled modules. It
serves for a source while that has the size and the time that it had; what is missing or has changed is read as ever,
and kept for the next time. Nothing depends on it: where it can't be read or written, a check is a little slower.
"""

from __future__ import annotations

import marshal
import os
import sys
from importlib.machinery import ModuleSpec
from importlib.util import MAGIC_NUMBER, cache_from_source
from typing import TYPE_CHECKING, Any, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from importlib.abc import InspectLoader, Loader
    from types import CodeType, ModuleType

    Seen = tuple[int, int]  # a file's time (ns) and size (bytes)
    Module = tuple[str, bool, Seen, CodeType]  # its file, whether it is a package, its code
    Made = tuple[Seen, Any]  # what was made of a file

_PACKAGE = f"{__name__.partition('.')[0]}."
_FILE = cache_from_source(os.path.join(os.path.dirname(__file__), "kept-for-check.py"))


class Ready:
    """Finds and makes the kept modules; what it does not know, Python finds. A meta path finder and a loader."""

    def __init__(self, modules: dict[str, Module], made: dict[str, Made]) -> None:
        self.modules = modules
        self.made = made
        self.before = frozenset(sys.modules)  # imported before there was this finder
        self.more = False  # whether something was made that is not kept

    def find_spec(self, name: str, path: Sequence[str] | None = None, target: Any = None) -> ModuleSpec | None:
        kept = self.modules.get(name)
        if kept is None or _seen(kept[0]) != kept[2]:
            return None
        spec = ModuleSpec(name, cast("Loader", self), origin=kept[0], is_package=kept[1])
        spec.has_location = True
        spec.cached = _FILE
        if kept[1]:
            spec.submodule_search_locations = [os.path.dirname(kept[0])]
        return spec

    def create_module(self, spec: ModuleSpec) -> None:
        """None of its own: a usual module."""

    def exec_module(self, module: ModuleType) -> None:
        exec(self.modules[module.__name__][3], module.__dict__)


_ready: Ready | None = None


def get_ready() -> None:
    """From here on, what is kept is taken from the one file."""
    global _ready
    _ready = Ready(*_read())
    sys.meta_path.insert(0, _ready)


def made_of(file: str, make: Callable[[], Any]) -> Any:
    """What `make` makes of a file's text: numbers, words, lists and dicts. Taken from what is kept, where it is."""
    if _ready is None:
        return make()
    seen = _seen(file)
    kept = _ready.made.get(file)
    if kept is not None and kept[0] == seen:
        return kept[1]
    made = make()
    if seen is not None:
        _ready.made[file] = (seen, made)
        _ready.more = True
    return made


def keep() -> None:
    """Writes the file anew where this process read what it lacks, or what has changed."""
    if _ready is None or sys.dont_write_bytecode:
        return
    own = [name for name in sys.modules if name.startswith(_PACKAGE) and name not in _ready.before]
    fresh = {name: kept for name in own if name not in _ready.modules and (kept := _kept(name)) is not None}
    stale = {name for name, kept in _ready.modules.items() if _seen(kept[0]) != kept[2]}
    fresh |= {name: kept for name in stale if name in sys.modules and (kept := _kept(name)) is not None}
    if fresh or stale or _ready.more:
        still = {name: kept for name, kept in _ready.modules.items() if name not in stale}
        made = {file: kept for file, kept in _ready.made.items() if _seen(file) == kept[0]}
        _write((still | fresh, made))


def _kept(name: str) -> Module | None:
    """None for what has no code of its own, such as a folder of data."""
    spec = sys.modules[name].__spec__
    if spec is None or spec.origin is None or spec.loader is None:
        return None
    # The file is looked at first: should it change meanwhile, its time will not match, and the code is not used.
    seen = _seen(spec.origin)
    loader: InspectLoader = spec.loader  # type: ignore[assignment]
    code = loader.get_code(name) if seen is not None and hasattr(loader, "get_code") else None
    package = spec.submodule_search_locations is not None
    return (spec.origin, package, seen, code) if seen is not None and code is not None else None


def _seen(file: str) -> Seen | None:
    """None where there is no such file."""
    try:
        status = os.stat(file)
    except OSError:
        return None
    return status.st_mtime_ns, status.st_size


def _read() -> tuple[dict[str, Module], dict[str, Made]]:
    try:
        with open(_FILE, "rb") as file:
            whole = marshal.loads(file.read()) if file.read(len(MAGIC_NUMBER)) == MAGIC_NUMBER else ({}, {})
    except (OSError, EOFError, ValueError, TypeError):
        return {}, {}
    modules, made = whole
    return modules, made


def _write(whole: tuple[dict[str, Module], dict[str, Made]]) -> None:
    """Beside its place, then into it: another check reads the old file or the new one, and never half of one."""
    beside = f"{_FILE}.{os.getpid()}"
    try:
        os.makedirs(os.path.dirname(_FILE), exist_ok=True)
        with open(beside, "wb") as fresh:
            fresh.write(MAGIC_NUMBER + marshal.dumps(whole))
        os.replace(beside, _FILE)
    except (OSError, ValueError):
        return
