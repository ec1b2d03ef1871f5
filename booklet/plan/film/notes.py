"""What is put on the screen: words, or what the booklet says of a chart, a material, a notion or a piece."""

from __future__ import annotations

from typing import TYPE_CHECKING

from booklet.plan.fabric import amounts_of, fabrics_of
from booklet.plan.notions import NEEDED, notions_of
from booklet.plan.plan import Note
from booklet.plan.prose import Block, Span, plain
from booklet.plan.write import capital, one_line
from booklet.read.tree import same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Pattern, Take
    from booklet.plan.prose import Prose
    from booklet.plan.write import Writer


class Notes:
    """Of one view of a pattern. A note that is the name of something shows that; any other is words."""

    def __init__(self, pattern: Pattern, letter: str, writer: Writer) -> None:
        self.writer = writer
        self.known: dict[str, Note] = {}
        for piece in pattern.pieces.values():
            self._add(piece.name, "piece", writer.line("{piece: " + piece.name + "}"))
        for notion in notions_of(pattern, (letter,), writer):
            many = notion.by_view[letter]
            said = (Span("text", ": "), *many[0].spans) if plain(many) != NEEDED else ()
            self._add(plain(notion.item), "notion", (Block("paragraph", (*notion.item[0].spans, *said)),))
        for written in pattern.notions:
            full = next((key for key in self.known if key.startswith(same_name(written.item))), None)
            if full is not None:
                self.known.setdefault(same_name(written.item), self.known[full])
        fabrics = {fabric.name: fabric for fabric in fabrics_of(pattern, (letter,), writer)}
        for material in pattern.materials.values():
            called = one_line(material.name)
            spans = [Span("text", called)]
            for at, amount in enumerate(amounts_of(fabrics[called]) if called in fabrics else ()):
                spans += [Span("text", "; " if at else ": "), *amount]
            for name in (material.key, material.name):
                self._add(name, "material", (Block("paragraph", tuple(spans)),))
        for chart in pattern.charts:
            self._add(chart.title, "chart", (Block("paragraph", (Span("text", capital(chart.title)),)),))

    def _add(self, name: str, kind: str, prose: Prose) -> None:
        self.known[same_name(name)] = Note(kind, plain(prose), prose)

    def of(self, take: Take) -> tuple[Note, ...]:
        return tuple(self._note(text.value) for text in take.notes)

    def _note(self, written: str) -> Note:
        prose = self.writer.line(written)
        return self.known.get(same_name(written)) or Note("words", plain(prose), prose)
