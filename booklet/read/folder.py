"""A pattern's folder: which files are read, in which order, and which never are."""

from __future__ import annotations

import os

from booklet.finding import Place
from booklet.read.document import read_document
from booklet.read.faults import Faults
from booklet.read.inside import inside
from booklet.read.tree import Mapping
from booklet.record import NamedTuple

# The most text that one pattern may have, in bytes. 10,000 steps take about 5 MB; no booklet is longer. Our choice.
MOST_BYTES = 8_000_000


class Source(NamedTuple):
    """What was read. texts: file name -> its text; trees: file name -> its mapping, `pattern.yaml` first."""

    folder: str
    texts: dict[str, str]
    trees: dict[str, Mapping]


_BEGINS = {
    "pattern.yaml": "Begin it with “pattern:”.",
    "film.yaml": "Begin it with “view:” and the letter of the view that is filmed, or delete the file.",
}


def read_folder(folder: str | os.PathLike[str], faults: Faults) -> Source:
    """Every YAML file of the folder, by name. Files that lie outside it, through a link, are refused."""
    texts: dict[str, str] = {}
    trees: dict[str, Mapping] = {}
    folder = os.fspath(folder)
    source = Source(folder, texts, trees)
    room = MOST_BYTES
    for name in _names(folder, faults):
        text = _read(folder, name, room, faults)
        if text is None:
            continue
        room -= len(text)
        texts[name] = text
        tree = read_document(name, text, faults)
        if isinstance(tree, Mapping):
            trees[name] = tree
        elif not faults.unread:
            faults.unreadable(
                "wrong-shape",
                Place(name, 1, 1, 1, 1),
                "This file holds nothing that can be read: it should be keys with a colon.",
                _BEGINS.get(name, "Begin it with “section:”, then “steps:”."),
            )
    return source


def _names(folder: str, faults: Faults) -> list[str]:
    here = Place(".", 1, 1, 1, 1)
    if not os.path.isdir(folder):
        faults.unreadable(
            "no-pattern",
            here,
            f"There is no folder “{os.path.basename(os.path.normpath(folder)) or folder}” here.",
            "Name the folder that holds pattern.yaml.",
        )
        return []
    try:
        names = sorted(name for name in os.listdir(folder) if name.endswith((".yaml", ".yml")) and name[0] != ".")
    except OSError as error:
        faults.unreadable(
            "no-pattern", here, f"This folder can't be opened: {error.strerror}.", "Look at its permissions."
        )
        return []
    if "pattern.yaml" not in names:
        faults.unreadable(
            "no-pattern",
            here,
            "This folder has no pattern.yaml.",
            "Write one, or let “notchbook start FOLDER” lay down a small pattern to begin from.",
        )
        return []
    names.remove("pattern.yaml")
    return ["pattern.yaml", *names]


def _read(folder: str, name: str, room: int, faults: Faults) -> str | None:
    here = Place(name, 1, 1, 1, 1)
    path = os.path.join(folder, name)
    try:
        if os.path.islink(path) and inside(folder, name) is None:
            faults.unreadable(
                "file-outside-folder",
                here,
                "This file is a link to one outside the pattern's folder.",
                "Copy the file itself into the folder.",
            )
            return None
        if os.path.islink(path) and not os.path.exists(path):
            faults.unreadable(
                "no-pattern", here, "This file is a link that leads nowhere.", "Copy the file itself there."
            )
            return None
        if not os.path.isfile(path):
            faults.unreadable("no-pattern", here, "This is not a file.", "Remove it, or give it another name.")
            return None
        if os.path.getsize(path) > room:
            faults.unreadable(
                "too-long",
                here,
                f"The pattern's files hold more than {MOST_BYTES // 1_000_000} MB of text.",
                "Drawings go into art/; split what is really several patterns.",
            )
            return None
        with open(path, "rb") as file:
            data = file.read()
    except OSError as error:
        faults.unreadable(
            "no-pattern", here, f"This file can't be opened: {error.strerror}.", "Look at its permissions."
        )
        return None
    try:
        return data.decode().removeprefix("\ufeff")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        faults.unreadable(
            "not-text",
            Place(name, line, 1, line, 1),
            "This file is not text in UTF-8.",
            "Save it again as UTF-8 from your editor.",
        )
        return None
