"""The exact place of a few words in the source, however the text around them is written."""

from __future__ import annotations

from pathlib import Path

import pytest

from booklet.check.locate import key_place, place_of
from booklet.model.pattern import Pattern
from booklet.pipeline import check_folder
from booklet.read.tree import Text

HEAD = """\
pattern: Small
studio: Tests
edition: "1"
seam allowance: 5/8 in
views: {A: {name: One}}
materials: {self: {name: Cloth}}
pieces: {front: {number: 1, cut: {self: 1}, edges: {side: {}}}}
"""


def read(tmp_path: Path, about: str) -> tuple[Pattern, Text]:
    (tmp_path / "pattern.yaml").write_bytes((HEAD + about).encode())
    pattern = check_folder(tmp_path).pattern
    assert pattern is not None
    assert pattern.about is not None
    return pattern, pattern.about


WAYS = {
    "plain": "about: Sew at 3/8 in here, then at 5/8 in there.\n",
    "plain over two lines": "about: Sew at 3/8\n  in here, then at 5/8\n  in there.\n",
    "folded": "about: >\n  Sew at 3/8 in here,\n  then at 5/8\n  in there.\n",
    "folded and stripped": "about: >-\n\n  Sew at 3/8 in here,\n\n  then at 5/8 in there.\n",
    "literal": "about: |\n  Sew at 3/8 in here,\n  then at 5/8 in there.\n",
    "single quotes": "about: 'It''s sewn at 3/8 in here,\n  then at 5/8 in there.'\n",
    "double quotes": 'about: "Sew at \\t 3/8 in here,\n  then at 5/8 in there."\n',
    "Windows line ends": "about: >\r\n  Sew at 3/8 in here,\r\n  then at 5/8\r\n  in there.\r\n",
    "signs beyond the first plane": "about: 🧵🧵 3/8 in, then 5/8 in.\n",
}


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("needle", ["3/8 in", "5/8 in"])
def test_the_place_is_where_the_words_stand(tmp_path: Path, way: str, needle: str) -> None:
    """Lines and columns count from 1, and columns count signs, not bytes."""
    pattern, about = read(tmp_path, WAYS[way])
    place = place_of(pattern, about, needle)
    lines = pattern.texts["pattern.yaml"].replace("\r\n", "\n").split("\n")
    assert lines[place.line - 1][place.column - 1 :].startswith(needle[:3])
    ends = lines[place.end_line - 1][: place.end_column - 1]
    assert ends.endswith(needle[-2:])
    assert place.line >= 8, "the allowance of the head is not in the text"


def test_the_second_of_two_is_told_from_the_first(tmp_path: Path) -> None:
    pattern, about = read(tmp_path, "about: >\n  Trim to 1/4 in, and\n  clip to 1/4 in.\n")
    first, second = (place_of(pattern, about, "1/4 in", nth) for nth in (0, 1))
    assert (first.line, first.column) == (9, 11)
    assert (second.line, second.column) == (10, 11)


def test_what_can_t_be_told_is_the_text_itself(tmp_path: Path) -> None:
    """Words that stand there only by an escape, or not at all."""
    pattern, about = read(tmp_path, 'about: "Sew at 3\\x2f8 in."\n')
    assert place_of(pattern, about, "3/8 in") == about.place
    assert place_of(pattern, about, "") == about.place


def test_a_key_is_found_in_its_mapping_and_no_further(tmp_path: Path) -> None:
    pattern, _ = read(tmp_path, 'about: x\nnotions:\n  - item: cord\n    count: {"A": 3, BA: 2, B: 4}\nterms: {C: x}\n')
    [notion] = pattern.notions
    line = pattern.texts["pattern.yaml"].split("\n")[10]
    assert key_place(pattern, notion.place, "B").column == line.index(" B: 4") + 2
    assert key_place(pattern, notion.place, "C") == notion.place
