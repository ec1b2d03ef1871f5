"""A located tree becomes a Pattern. What cannot be understood is said and left out; the rest goes on."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from booklet.length import House
from booklet.model.art import art_file
from booklet.model.pattern import (
    Allow,
    Chart,
    Cut,
    Dart,
    EdgeSpec,
    Film,
    Material,
    Measured,
    Notion,
    Pattern,
    Piece,
    Scope,
    Section,
    Step,
    Take,
    View,
)
from booklet.model.source import FILM, FOLDS, PATTERN, SECTION
from booklet.model.work import read_entry
from booklet.read.faults import nearest
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.model.kinds import Values
    from booklet.read.faults import Faults
    from booklet.read.folder import Source

# A view's letter stands in a square of the booklet and in the names of files.
_LETTER = re.compile(r"[A-Za-z0-9]{1,3}\Z")
_CUT = re.compile(r"([0-9]{1,2})( on (?:the )?fold)?\Z")


def build_pattern(source: Source, faults: Faults) -> Pattern | None:
    """The pattern, or None where pattern.yaml itself cannot be understood."""
    tree = source.trees.get("pattern.yaml")
    if tree is None:
        return None
    head = PATTERN.read(tree, "pattern.yaml", faults)
    if head is None or "seam allowance" not in head.values or not head.get("views") or not head.get("pieces"):
        if head is not None and not faults.findings:
            faults.add("missing-key", tree.place, "A pattern needs views and pieces.", "Write at least one of each.")
        faults.unread = True
        return None
    builder = _Builder(source, faults, head)
    if not builder.views:
        faults.unread = True
        return None
    return builder.pattern()


class _Builder:
    def __init__(self, source: Source, faults: Faults, head: Values) -> None:
        self.source = source
        self.faults = faults
        self.head = head
        self.allowance: Measured = head.values["seam allowance"]
        self.views = {view.letter: view for view in self._views()}

    def pattern(self) -> Pattern:
        head = self.head
        rounding = tuple(self._rounding())
        ages = head.get("for ages", ())
        if ages and (len(ages) != 2 or ages[0] > ages[1]):
            self.faults.add(
                "wrong-shape",
                head.keys["for ages"].place,
                "“for ages” takes the youngest and the oldest.",
                "Write them so: [2, 10].",
            )
            ages = ()
        materials = {same_name(key.value): self._material(key, values) for key, values in head.get("materials", [])}
        pieces = {same_name(key.value): self._piece(key, values) for key, values in head.get("pieces", [])}
        return Pattern(
            folder=self.source.folder,
            texts=self.source.texts,
            name=_text(head.get("pattern")),
            studio=_text(head.get("studio")),
            edition=_text(head.get("edition")),
            place=head.place,
            metric=_text(head.get("units")) == "metric",
            allowance=self.allowance.length,
            allowance_place=self.allowance.place,
            house=_house(rounding),
            rounding=rounding,
            views=self.views,
            sizes=_texts(head.get("sizes")),
            fittings=_texts(head.get("fittings")),
            ages=(ages[0], ages[1]) if ages else None,
            about=head.get("about"),
            before=head.get("before you begin"),
            choosing=head.get("choosing a size"),
            charts=tuple(self._chart(key, values) for key, values in head.get("charts", [])),
            materials=materials,
            notions=tuple(self._notion(values) for values in head.get("notions", ())),
            tools=head.get("tools", ()),
            pieces=pieces,
            terms=tuple(head.get("terms", [])),
            sections=self._sections(),
            film=self._film(),
            allow=_allow(head),
            outlines=head.get("outlines", ()),
            figure_size=head.get("figure size"),
        )

    def _views(self) -> list[View]:
        views = []
        for key, values in self.head.get("views", []):
            if not _LETTER.match(key.value.strip()):
                self.faults.add(
                    "wrong-shape",
                    key.place,
                    f"“{key.value[:40]}” can't name a view: it stands in a small square and in file names.",
                    "Name it by one letter, or by two or three letters or digits.",
                )
                continue
            views.append(
                View(
                    key.value.strip(),
                    _text(values.get("name")) or key.value,
                    values.get("with", ()),
                    key.place,
                    values.get("about"),
                    art_file(values.get("figure"), self.source, self.faults),
                )
            )
        return views

    def _rounding(self) -> list[tuple[Measured, Measured]]:
        rows = []
        for key, value in self.head.get("metric", []):
            from booklet.model.kinds import Measure

            first = Measure().read(key, "“metric”", self.faults)
            if first is not None:
                rows.append((first, value))
        return rows

    def scope(self, values: Values) -> Scope:
        wanted, unwanted = values.get("for", ()), values.get("not for", ())
        if not wanted and not unwanted:
            return Scope((), (), tuple(self.views))
        has, lacks = self._meant(wanted), self._meant(unwanted)
        letters = [
            letter for letter, view in self.views.items() if (not has or _named(view, has)) and not _named(view, lacks)
        ]
        return Scope(wanted, unwanted, tuple(letters))

    def _meant(self, names: tuple[Text, ...]) -> set[str]:
        """The names, a misspelt one as the word that is near: unknown-view tells of it, and nothing else need."""
        known = [same_name(word) for view in self.views.values() for word in (view.letter, *_texts(view.words))]
        meant = (same_name(name.value) for name in names)
        return {name if name in known else nearest(name, known) or name for name in meant}

    def _material(self, key: Text, values: Values) -> Material:
        amounts = []
        for width, (by_view, rows) in values.get("amounts", []):
            from booklet.model.kinds import Measure

            measured = Measure().read(width, "“amounts”", self.faults)
            if measured is None:
                continue
            listed = [(_letters(view), amount) for view, amount in rows] if by_view else [(tuple(self.views), rows)]
            amounts.append((measured, tuple(listed)))
        return Material(
            _text(values.get("name")) or key.value,
            key.value,
            _text(values.get("kind")),
            key.place,
            values.get("suits"),
            tuple(amounts),
        )

    def _piece(self, key: Text, values: Values) -> Piece:
        edges = {}
        for name, edge in values.get("edges", []):
            own = edge.get("allowance")
            fold = same_name(name.value) == "fold" or _text(edge.get("on")) == "fold"
            edges[same_name(name.value)] = EdgeSpec(
                name.value,
                name.place,
                own.length if own else self.allowance.length,
                own,
                _text(edge.get("curve")),
                fold,
                bias=_text(edge.get("bias")) in ("true", "yes"),
            )
        darts = {
            same_name(name.value): Dart(name.value, dart.get("crosses", ()), name.place, kind.of, dart.get("drawn", ()))
            for folds, kind in FOLDS.items()
            for name, dart in values.get(folds, [])
        }
        cuts = [cut for material, text in values.get("cut", []) if (cut := self._cut(material, text))]
        return Piece(
            key.value,
            _text(values.get("number")),
            key.place,
            self.scope(values),
            tuple(cuts),
            edges,
            darts,
            _line_names(values.get("lines")),
            _line_allowances(values.get("lines")),
            _text(values.get("bias")) in ("true", "yes"),
            values.get("corners", ()),
            _drawn_lines(values.get("lines")),
        )

    def _cut(self, material: Text, text: Text) -> Cut | None:
        match = _CUT.match(same_name(text.value))
        if not match or match[1] == "0":
            self.faults.add(
                "wrong-shape",
                text.place,
                f"“{text.value[:40]}” does not say how many to cut.",
                "Write a number, or a number and “on fold”: 2, or 1 on fold.",
            )
            return None
        return Cut(material, int(match[1]), bool(match[2]), same_name(text.value))

    def _notion(self, values: Values) -> Notion:
        item = _text(values.get("item"))
        return Notion(
            item,
            same_name(item),
            values.place,
            self.scope(values),
            values.get("size"),
            _by_view(values.get("count")),
            _by_view(values.get("length")),
            values.get("note"),
            values.get("thick"),
        )

    def _chart(self, key: Text, values: Values) -> Chart:
        rows = tuple((label.value, figures) for label, figures in values.get("rows", []))
        return Chart(key.value, key.place, _text(values.get("unit")), rows, self.scope(values), values.get("note"))

    def _sections(self) -> list[Section]:
        sections: list[Section] = []
        number = 0
        for name, tree in self.source.trees.items():
            if name in ("pattern.yaml", "film.yaml"):
                continue
            values = SECTION.read(tree, "this file", self.faults)
            if values is None:
                continue
            section = Section(_text(values.get("section")), tree.place, values.get("text"), allow=_allow(values))
            for step in values.get("steps", ()):
                if "id" not in step.values or "title" not in step.values:
                    continue
                number += 1
                section.steps.append(self._step(step, number, section))
            sections.append(section)
        return sections

    def _step(self, values: Values, number: int, section: Section) -> Step:
        get = values.values.get
        work = [entry for node in get("work", ()) if (entry := read_entry(node, self.faults))]
        return Step(
            id=values.values["id"].value.strip(),
            number=number,
            title=values.values["title"].value.strip(),
            place=values.values["id"].place,
            title_place=values.values["title"].place,
            scope=self.scope(values),
            section=section,
            work=tuple(work),
            uses=get("uses", ()),
            makes=get("makes"),
            after=get("after", ()),
            text=get("text"),
            tip=get("tip"),
            caution=get("caution"),
            figure=art_file(get("figure"), self.source, self.faults),
            film=tuple(_take(take) for take in get("film", ())),
            minutes=get("minutes"),
            optional=_text(get("optional")) in ("true", "yes"),
            allow=_allow(values),
            has_work=bool(get("work")),
        )

    def _film(self) -> Film | None:
        tree = self.source.trees.get("film.yaml")
        values = FILM.read(tree, "film.yaml", self.faults) if tree else None
        if values is None:
            return None
        setups = {same_name(key.value): (key, text) for key, text in values.get("setups", [])}
        takes = tuple(
            _take(take) for take in values.get("takes", ()) if "title" in take.values and "when" in take.values
        )
        recorded, times = values.get("recorded"), tuple(values.get("times", []))
        link = self._link(values.get("link"))
        samples = values.get("samples", 0)
        return Film(values.place, values.get("view"), values.get("pace"), setups, takes, recorded, times, link, samples)

    def _link(self, link: Text | None) -> str:
        """An address of the web, as text; nothing is fetched from it. Anything else could run in a reader's browser."""
        address = _text(link)
        if link is not None and (strange := re.search(r"\{(?!seconds\})[^{}]{0,40}\}?", address)):
            self.faults.add(
                "unknown-word",
                link.place,
                f"“{strange[0]}” stands for nothing in a link.",
                "Write “{seconds}” where the time should stand.",
            )
            return ""
        if link is None or (address.startswith(("https://", "http://")) and not set(address) & set(" \"'<>\n")):
            return address
        self.faults.add(
            "wrong-shape",
            link.place,
            "“link” should hold the address of the video; here it holds something else.",
            "Write it as the browser shows it, beginning with https://.",
        )
        return ""


def _text(value: Text | None) -> str:
    return value.value.strip() if value is not None else ""


def _texts(values: tuple[Text, ...] | None) -> tuple[str, ...]:
    return tuple(text.value.strip() for text in values or ())


def _named(view: View, names: set[str]) -> bool:
    mine = {same_name(view.letter), *(same_name(word.value) for word in view.words)}
    return not names.isdisjoint(mine)


def _letters(view: Text) -> tuple[str, ...]:
    """`A`, or several views at once as in `A, B`."""
    return tuple(letter.strip() for letter in view.value.split(","))


def _by_view(read: tuple[bool, Any] | None) -> dict[str, Any]:
    if read is None or read[1] is None:
        return {}
    by_view, value = read
    return {letter: v for key, v in value for letter in _letters(key)} if by_view else {"": value}


def _line_names(read: tuple[bool, Any] | None) -> tuple[Text, ...]:
    if read is None:
        return ()
    keyed, value = read
    return tuple(name for name, _ in value) if keyed else value


def _line_allowances(read: tuple[bool, Any] | None) -> dict[str, Measured]:
    keyed, value = read or (False, ())
    rows = value if keyed else ()
    return {same_name(name.value): line.get("allowance") for name, line in rows if line.get("allowance")}


def _drawn_lines(read: tuple[bool, Any] | None) -> dict[str, Text]:
    keyed, value = read or (False, ())
    rows = value if keyed else ()
    return {same_name(name.value): line.get("drawn")[0] for name, line in rows if line.get("drawn")}


def _allow(values: Values) -> tuple[Allow, ...]:
    return tuple(Allow(rule, reason) for rule, reason in values.get("allow", []))


def _take(values: Values) -> Take:
    return Take(
        values.place,
        values.get("setup"),
        values.get("show"),
        values.get("say"),
        values.get("minutes"),
        values.get("title"),
        values.get("when"),
        values.get("needs"),
        values.get("words"),
        values.get("note", ()),
        values.get("about views"),
    )


def _house(rounding: tuple[tuple[Measured, Measured], ...]) -> House:
    return House((first.length, other.length) for first, other in rounding)
