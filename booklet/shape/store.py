"""Measures kept from one run to the next, as JSON in the user's cache folder; silently none where that can't be had.

What is kept is numbers and sentences. A file there that is broken, strange or too large is not used.
"""

from __future__ import annotations

import json
import os
import sys
from typing import TYPE_CHECKING, Any, TypeVar

from booklet import __version__
from booklet.finding import Place
from booklet.read.faults import Faults
from booklet.shape.measure import EdgeSizes, Measures, NotchAt
from booklet.shape.trims import trims_of

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from booklet.finding import Finding
    from booklet.model.pattern import Pattern
    from booklet.shape.files import OutlineSource

_Read = TypeVar("_Read")

# What reading something of another form than was kept can raise.
STRANGE = (OSError, ValueError, TypeError, KeyError, IndexError, AttributeError, RecursionError)

# The most patterns that are kept, and the most bytes of one. Our choice.
MOST_FILES, MOST_BYTES = 60, 8_000_000


def folder() -> str | None:
    """Where it is kept. Source: XDG Base Directory Specification 0.8; on Windows the user's local application data."""
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA", "")
    else:
        base = os.environ.get("XDG_CACHE_HOME", "")
    if base and os.path.isabs(base):
        return os.path.join(base, "notchbook")
    home = os.path.expanduser("~")
    return os.path.join(home, ".cache", "notchbook") if os.path.isabs(home) else None


def name_of(pattern: Pattern, sources: Sequence[OutlineSource]) -> str:
    """From the outlines' bytes, what the pattern says of its pieces, and our version: 64 hexadecimal digits."""
    try:
        # The same function, without the four milliseconds in which hashlib loads what else it has.
        from _blake2 import blake2b
    except ImportError:
        from hashlib import blake2b

    about = [__version__, _code(), relevant(pattern)]
    whole = blake2b(json.dumps(about, ensure_ascii=False).encode("utf-8", "replace"), digest_size=32)
    for source in sources:
        try:
            with open(source.path, "rb") as file:
                data = file.read()
        except OSError:
            data = b""
        whole.update(f"{source.name} {len(data)}\n".encode("utf-8", "replace") + data)
    return whole.hexdigest()


def hashed(*parts: str) -> str:
    """64 hexadecimal digits for some words."""
    from hashlib import blake2b

    return blake2b("\0".join(parts).encode("utf-8", "replace"), digest_size=32).hexdigest()


def _code() -> list[tuple[str, int, int]]:
    """The files that measure, in a checkout: whoever changes them sees what comes of it at once."""
    with os.scandir(os.path.dirname(__file__)) as entries:
        files = [(entry.name, entry.stat()) for entry in entries if entry.name.endswith(".py")]
    return sorted((name, stat.st_size, stat.st_mtime_ns) for name, stat in files)


def relevant(pattern: Pattern) -> Any:
    """What measuring asks of the pattern."""
    return [
        pattern.sizes,
        pattern.fittings,
        [written.value for written in pattern.outlines],
        [
            [
                piece.name,
                piece.number,
                [[edge.name, str(edge.allowance.millimetres), edge.fold] for edge in piece.edges.values()],
                [
                    [dart.name, dart.kind, [name.value for name in dart.crosses], [mark.value for mark in dart.drawn]]
                    for dart in piece.darts.values()
                ],
                [mark.value for mark in piece.corners],
                [[name, mark.value] for name, mark in piece.drawn_lines.items()],
                [[name, str(own.length.millimetres)] for name, own in piece.line_allowances.items()],
            ]
            for piece in pattern.pieces.values()
        ],
        list(trims_of(pattern).items()),
    ]


def _spots(pattern: Pattern) -> dict[str, Place]:
    """Every place that a fault of an outline may point at, by a name that outlives a change of lines."""
    found = {f"outlines {at}": written.place for at, written in enumerate(pattern.outlines)}
    for key, piece in pattern.pieces.items():
        found[f"piece {key}"] = piece.place
        found |= {f"corner {at} {key}": mark.place for at, mark in enumerate(piece.corners)}
        found |= {f"line {name} {key}": mark.place for name, mark in piece.drawn_lines.items()}
        for name, dart in piece.darts.items():
            found |= {f"dart {name} {at} {key}": mark.place for at, mark in enumerate(dart.drawn)}
    return found


def keep(key: str, pattern: Pattern, measures: Measures, findings: Sequence[Finding]) -> None:
    """Writes it down, where that can be done; and clears away the oldest of what is there."""
    named = {place: spot for spot, place in _spots(pattern).items()}
    if any(finding.place not in named for finding in findings):
        return
    whole = {
        "pieces": [
            [*names, {name: _columns(sizes) for name, sizes in edges.items()}] for names, edges in measures.rows.items()
        ],
        "dots": measures.dots,
        "faults": [[named[fault.place], fault.rule, fault.level, fault.says, fault.mend] for fault in findings],
    }
    put(key, whole)


def put(key: str, whole: Any) -> None:
    """Keeps anything that JSON can hold under a name of 64 hexadecimal digits."""
    from pathlib import Path

    kept_in = folder()
    if kept_in is None:
        return
    place = Path(kept_in)
    try:
        place.mkdir(parents=True, exist_ok=True)
        fresh = place / f"{key}.{os.getpid()}.part"
        fresh.write_text(json.dumps(whole, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
        fresh.replace(place / f"{key}.json")
        _clear(place)
    except (OSError, ValueError):
        return


def _clear(place: Path) -> None:
    """The oldest beyond the most; nothing that is not ours."""
    ours = [path for path in place.iterdir() if path.suffix in (".json", ".part") and len(path.name) >= 69]
    for path in sorted(ours, key=lambda path: path.stat().st_mtime, reverse=True)[MOST_FILES:]:
        path.unlink(missing_ok=True)


def kept(key: str, pattern: Pattern) -> tuple[Measures, Faults] | None:
    """What was written down under that name, or None."""
    try:
        return _read(got(key), pattern)
    except STRANGE:
        return None


def got(key: str) -> Any:
    """What was kept under that name; None where there is nothing, or nothing that can be read."""
    place = folder()
    if place is None:
        return None
    try:
        with open(os.path.join(place, f"{key}.json"), "rb") as file:
            data = file.read(MOST_BYTES + 1)
        return json.loads(data) if len(data) <= MOST_BYTES else None
    except (OSError, ValueError, RecursionError):
        return None


def _columns(edge: EdgeSizes) -> list[Any]:
    """Each column, or the one value that stands in all of it. Most notches are slits: of those only the place."""
    notches = [[mark.place if mark.kind == "slit" else mark for mark in marks] for marks in edge.notches]
    return [
        column[:1] if all(value == column[0] for value in column) else column
        for column in (edge.sewn, edge.drawn, notches, edge.turned, edge.bow, edge.bust)
    ]


def _read(whole: Any, pattern: Pattern) -> tuple[Measures, Faults]:
    """Raises an error of its own accord for whatever is not of the form that `keep` writes."""
    number = len(pattern.sizes or ("",))
    rows = {
        (_text(key), _text(fitting), tuple((_text(edge), _text(line)) for edge, line in trims)): {
            _text(name): _edge(columns, number) for name, columns in edges.items()
        }
        for key, fitting, trims, edges in whole["pieces"]
    }
    spots, faults = _spots(pattern), Faults()
    for spot, rule, level, says, mend in whole["faults"]:
        if level not in ("error", "warning"):
            raise ValueError(level)
        faults.add(_text(rule), spots[spot], _text(says), _text(mend), level=level)
    dots = {_text(key): int(_number(number)) for key, number in whole["dots"].items()}
    return Measures(pattern, rows, dots), faults


def _edge(columns: Any, number: int) -> EdgeSizes:
    sewn, drawn, notches, turned, bow, bust = columns
    return EdgeSizes(
        _column(_length, sewn, number),
        _column(_pair, drawn, number),
        _column(_marks, notches, number),
        _column(_pair, turned, number),
        _column(_length, bow, number),
        _column(_length, bust, number),
    )


def _column(read: Callable[[Any], _Read], written: Any, number: int) -> tuple[_Read, ...]:
    found = tuple(map(read, written))
    if len(found) == 1:
        return found * number
    if len(found) != number:
        raise ValueError(number)
    return found


def _length(value: Any) -> float | None:
    return None if value is None else _number(value)


def _pair(value: Any) -> tuple[float, float] | None:
    return None if value is None else (_number(value[0]), _number(value[1]))


def _marks(value: Any) -> tuple[NotchAt, ...]:
    return tuple(
        NotchAt(_number(mark[0]), _text(mark[1])) if isinstance(mark, list) else NotchAt(_number(mark), "slit")
        for mark in value or ()
    )


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _number(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, (int, float)) or not -1e6 < value < 1e6:
        raise TypeError(value)
    return float(value)
