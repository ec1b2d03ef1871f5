"""Files that a pattern names: only those of its own folder are ever opened, and nothing is fetched.

Paths are text here and in what a check reads: to import pathlib takes as long as to read the pattern.
"""

from __future__ import annotations

import os

_SCHEME = frozenset("abcdefghijklmnopqrstuvwxyz0123456789+.-")


def is_address(name: str) -> bool:
    """Whether a name leads to the web or another machine: `https:…`, `//host`, `\\\\host`.

    Source: RFC 3986, section 3.1, for a scheme; one of a single letter is a drive.
    """
    name = name.strip()
    scheme, colon, _ = name.partition(":")
    has_scheme = bool(colon) and len(scheme) > 1 and scheme[0].isalpha() and _SCHEME.issuperset(scheme.lower())
    return has_scheme or name.startswith(("//", "\\\\"))


def inside(folder: str, name: str) -> str | None:
    """The place of what a pattern names, links followed; None where that is outside its folder.

    Raises OSError or ValueError where the system can't tell.
    """
    if "\0" in name:
        return None
    home = os.path.realpath(folder)
    place = os.path.realpath(os.path.join(home, name))
    return place if place == home or place.startswith(os.path.join(home, "")) else None
