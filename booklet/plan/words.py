"""The words of `work`, for a step that has no text: each operation's own sentence, filled in."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from booklet.craft.load import constructions, kinds, table
from booklet.model.pattern import Measured
from booklet.plan import naming
from booklet.plan.prose import Prose
from booklet.plan.write import Writer, one_line
from booklet.read.tree import Text, same_name

if TYPE_CHECKING:
    from booklet.model.pattern import Entry, Pattern, Step
    from booklet.sew.bench import Act

# How many sentences stand in a paragraph? Plain writing asks for at most five: HHS, Plain Writing in One Page.
MOST_SENTENCES = 5

_BRACKETED = re.compile(r"\[([^\[\]]*)\]")
_FIELD = re.compile(r"\{([a-z ]+)\}")
# Options whose words are a part's or a seam's, printed as they are named.
_NAMES = frozenset({"of", "layer", "on", "with", "into", "through", "to", "toward"})


def work_prose(pattern: Pattern, step: Step, acts: Sequence[Act], views: tuple[str, ...], writer: Writer) -> Prose:
    """acts: the step's, from the bench of a view that sews it; views: for which counts are told apart."""
    sentences: list[Prose] = []
    for at, entry in enumerate(step.work):
        if entry.says is not None:
            sentences.append(writer.prose(entry.says))
            continue
        act = next((act for act in acts if act.entry is entry), None)
        sentences.append(writer.line(_sentence(pattern, entry, step.work[:at], act, views)))
    return _paragraphs([sentence for sentence in sentences if sentence])


def _paragraphs(sentences: list[Prose]) -> Prose:
    from booklet.plan.prose import Block, Span

    blocks = []
    for start in range(0, len(sentences), MOST_SENTENCES):
        spans: list[Span] = []
        for sentence in sentences[start : start + MOST_SENTENCES]:
            for block in sentence:
                spans += [Span("text", " "), *block.spans] if spans else block.spans
        blocks.append(Block("paragraph", tuple(spans)))
    return tuple(blocks)


def _sentence(pattern: Pattern, entry: Entry, before: Sequence[Entry], act: Act | None, views: tuple[str, ...]) -> str:
    fields = _fields(pattern, entry, before, act, views)
    template = entry.operation.says
    if template == "{construction}":
        word = entry.options.get("seam")
        template = constructions()[word.value if word else "plain"]["says"]
    kind = entry.options.get("kind")
    if kind is not None:
        template = kinds(entry.name)[kind.value]["says"]
    words = _filled(template, fields, table("wording")["with"].get(entry.name, ""))
    if (where := fields.get("where")) is not None:
        words = f"{words[:-1]}: {where}."
    return one_line(words)


def _filled(template: str, fields: dict[str, str], used: str) -> str:
    """[Bracketed] words drop out when a field in them has no value. `used`: what `with` means where it says nothing."""
    kept = _BRACKETED.sub(
        lambda match: match[1] if all(field in fields for field in _FIELD.findall(match[1])) else "", template
    )
    spare = {"with": used} if used else {}
    words = _FIELD.sub(lambda match: fields.get(match[1]) or spare.get(match[1], "what the pattern says"), kept)
    return re.sub(r"\bone ([a-z]+?)s\b(?: and eyes)?", lambda match: _single(match[0], match[1]), words)


def _single(whole: str, noun: str) -> str:
    return f"one {noun} and eye" if whole.endswith(" and eyes") else f"one {noun}"


def _fields(
    pattern: Pattern, entry: Entry, before: Sequence[Entry], act: Act | None, views: tuple[str, ...]
) -> dict[str, str]:
    fields = {"things": _things(pattern, entry), "line": "edge" if entry.word is None else "seam"}
    if entry.measures:
        lengths = [measured.length for measured in entry.measures]
        fields |= {"measure": str(lengths[0]), "measures": naming.listed(map(str, lengths))}
    kind, every = entry.spacing
    if kind:
        spacing = table("wording")["spacing"][kind]
        fields["spacing"] = spacing.replace("{measure}", str(every.length) if every else "")
    if entry.operation.takes == "direction" and entry.word is not None:
        fields["direction"] = _direction(entry, before, act)
    for option, value in entry.options.items():
        fields.update(_option(option, value, views))
    if entry.name == "sew":
        fields["allowance"] = str(act.seam.allowance if act is not None and act.seam is not None else pattern.allowance)
    if "count" in entry.operation.options:
        fields.setdefault("count", "the")
    if "notion" in entry.operation.options:
        notion = entry.options.get("notion")
        fields["notion"] = one_line(notion.value) if notion else entry.name
    return fields


def _option(option: str, value: Any, views: tuple[str, ...]) -> dict[str, str]:
    """What an option says: measures and names as they are, counts by view, some words by the table."""
    words = table("wording")
    if isinstance(value, Measured):
        return {option: str(value.length)}
    if option in ("count", "rows"):
        counted = _count(value, views)
        return {**counted, option: counted["count"]} if option == "count" else {"rows": counted["count"]}
    if isinstance(value, tuple):
        if option == "passes":
            return {"passes first": str(value[0].length), "passes last": str(value[-1].length)}
        if all(isinstance(one, Measured) for one in value):
            return {option: naming.listed([str(value[0].length), *(f"again by {one.length}" if option == "turns"
                                           else str(one.length) for one in value[1:])])}  # fmt: skip
        return {option: naming.listed(f"the {_named(one)}" for one in value)}
    if option == "how":
        return {"how": words["finish"].get(same_name(value.value), one_line(value.value))}
    if option == "by":
        return {"by": words["by"].get(same_name(value.value), f"by {one_line(value.value)}")}
    return {option: _named(value)} if option in _NAMES else {}


def _named(text: Text) -> str:
    """`front.neckline` -> `neckline of the front`; a part or seam by its name."""
    part, dot, edge = one_line(text.value).partition(".")
    return f"{edge} of the {part}" if dot else part


def _count(value: Any, views: tuple[str, ...]) -> dict[str, str]:
    by_view, number = value
    if not by_view:
        return {"count": _spelled(number)}
    counts = {letter.strip(): many for letters, many in number for letter in letters.value.split(",")}
    mine = {view: counts[view] for view in views if view in counts}
    if len(set(mine.values())) == 1:
        return {"count": _spelled(next(iter(mine.values())))}
    return {"count": "the", "where": naming.listed(f"{_spelled(many)} in view {view}" for view, many in mine.items())}


def _spelled(number: int) -> str:
    words = table("wording")["numbers"]
    return str(words[number] if number < len(words) else number)


def _things(pattern: Pattern, entry: Entry) -> str:
    takes = entry.operation.takes
    if entry.sides:
        return naming.sides(entry.sides)
    if entry.word is not None:
        word = same_name(entry.word.value)
        return one_line(entry.word.value) if takes == "notion" else f"the {word}"
    if takes == "darts":
        return naming.darts(entry.things, pattern)
    if takes in ("parts", "things"):
        return naming.parts(entry.things)
    return naming.edges(entry.things)


def _direction(entry: Entry, before: Sequence[Entry], act: Act | None) -> str:
    assert entry.word is not None
    rows = table("wording")
    word = same_name(entry.word.value)
    of = entry.options.get("of")
    if of is not None:
        it = f"the {_named(of)}"
        if word == "up" and "." in of.value and (act is None or act.seam is None):
            word = "edge up"
    else:
        worked = [rows["worked"][earlier.name] for earlier in before if earlier.name in rows["worked"]]
        it = worked[-1] if worked else "the seam"
    if word.startswith("toward"):
        part = word.removeprefix("towards").removeprefix("toward").strip()
        return str(rows["press"]["toward"]).replace("{part}", part).replace("{it}", it)
    return str(rows["press"].get(word, f"{{it}} {word}")).replace("{it}", it)
