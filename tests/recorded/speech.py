"""Loose speech made up from the steps of a pattern: what a person might say while sewing it, with the true times.

Words are dropped, misheard and said in other words; fillers, chatter and asides about other steps come between; takes
change places or are left out. All by chance, but the same each time.
"""

from __future__ import annotations

import random
import re
from typing import TYPE_CHECKING, NamedTuple

from booklet.length import Length, find
from booklet.recorded.cues import Cue

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from booklet.recorded.takes import Candidate

OPENERS = (
    "Okay, so next we {title}.",
    "Right, {title}, that's the next thing.",
    "So now it's time to {title}.",
    "Okay. Step {number}. {Title}.",
    "Moving on, let's {title}.",
    "Good. Now we're going to {title}, and this is quicker than it looks.",
    "So, {title}.",
    "Next up, {title}.",
    "Alright then, now I'm going to {title}.",
    "That's that. Now we can {title}.",
)
IMPROVISED = (
    "So I've got the {edge} here in front of me, can you see that.",
    "I'm just going to {operation} along the {edge}, nice and slowly.",
    "You can see how the {edge} is lying there.",
    "And that's the {edge} done, lovely.",
    "I like to do the {edge} first, but it really doesn't matter.",
    "Let me just move the {edge} under the lamp.",
    "Hold the {edge} flat with your left hand while you {operation} it.",
    "Go as far as the end of the {edge} and stop there.",
    "Whatever you do, don't stretch the {edge}.",
    "Then have a look at the {edge} from the other side, it should look like this.",
    "If the {edge} slides about, put in another pin or two.",
)
ASIDES = (
    "Remember when we did that other one, you know, {other}.",
    "Later on we will {other}, but not yet.",
    "It's the same way as before, when we had to {other}.",
    "We already did this bit when it came to {other}.",
)
CHATTER = (
    "Sorry, that's my neighbour with the leaf blower again.",
    "I put the kettle on before I started and then forgot all about it.",
    "Somebody asked me last week where I got this lamp, and honestly it was my grandmother's.",
    "I always talk too much when I do this.",
    "If you hear purring, that's the cat, she sleeps under the table.",
    "This fabric is so nice to work with, I bought it years ago and never dared to cut it.",
    "It rained all morning so the light keeps changing, I'm sorry about that.",
    "Take a break if you need one, I certainly do.",
    "I used to hurry through this and then I'd spend the evening unpicking.",
    "You don't have to be perfect, nobody looks at the inside of your clothes on the bus.",
    "My first one of these looked like a potato sack.",
    "Pins, where did I put my pins, oh there they are.",
    "Change your needle if you can't remember when you last did.",
    "I've got a cup of tea somewhere behind the camera.",
    "Somebody will tell me in the comments that I'm holding it wrong.",
    "Let me just turn the light a bit so you can see better.",
    "My machine makes that noise, it's fine, it has always made that noise.",
    "If the thread snaps just start again, it happens to everybody.",
    "I'm going to speed this up so you don't have to watch all of it.",
    "Breathe. It's only cloth.",
)
FILLERS = ("um", "so", "just", "kind of", "you know", "like", "basically", "okay", "right", "sort of", "actually", "uh")
OTHER_WORDS = {
    "sew": ("stitch", "sew", "run a line of stitching along"),
    "stitch": ("sew", "stitch"),
    "press": ("iron", "press", "give it a press"),
    "edge": ("edge", "side", "raw edge"),
    "lay": ("put", "place", "lay"),
    "match": ("line up", "match"),
    "right": ("right", "nice"),
    "trim": ("trim", "cut down"),
    "fold": ("fold", "flip"),
    "allowances": ("seam allowances", "allowances", "extra bits"),
    "wrong": ("wrong", "ugly"),
    "together": ("together",),
    "each": ("each", "every"),
}
NUMBERS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
PARTS = {2: ("half", "halves"), 4: ("quarter", "quarters"), 8: ("eighth", "eighths"), 16: ("sixteenth", "sixteenths")}
_VOWELS = re.compile("[aeiou]")
_REFERENCE = re.compile(r"\{\s*(step|piece)\s*:([^{}]*)\}", re.IGNORECASE)


class Noise(NamedTuple):
    """How loose the speech is: shares of words dropped and misheard, of sentences left out; how often a filler, a
    chatter or an aside comes; what is made up on the
    spot for a step; takes that change places and that are left out; whether captions have stops."""

    dropped: float = 0.12
    misheard: float = 0.03
    unsaid: float = 0.3
    fillers: float = 0.12
    chatter: float = 0.35
    asides: float = 0.12
    improvised: int = 3
    unopened: float = 0.2
    swapped: int = 1
    missing: int = 1
    stops: bool = True


class Film(NamedTuple):
    """cues; truth: of each take that is filmed, when its first word is said; order: takes as filmed; missing: those
    that are not; swapped: pairs that changed places."""

    cues: list[Cue]
    truth: dict[int, float]
    order: list[int]
    missing: list[int]
    swapped: list[tuple[int, int]]


def film(takes: Sequence[Candidate], seed: str, noise: Noise) -> Film:
    chance = random.Random(seed)
    order = list(range(len(takes)))
    steps = [at for at in order[1:-2] if takes[at].step is not None and takes[at + 1].step is not None]
    swapped: list[tuple[int, int]] = []
    for _ in range(noise.swapped):
        free = [at for at in steps if all(abs(at - one) > 2 for one, _ in swapped)]
        if free:
            at = chance.choice(free)
            order[at], order[at + 1] = order[at + 1], order[at]
            swapped.append((at, at + 1))
    near = {one for pair in swapped for one in pair}
    gone = [at for at in steps if at not in near and takes[at].step is not None]
    missing = sorted(chance.sample(gone, min(noise.missing, len(gone))))
    order = [at for at in order if at not in missing]
    words: list[tuple[float, float, str]] = []
    truth: dict[int, float] = {}
    clock = 1.0 + chance.random() * 3
    for at in order:
        truth[at] = round(clock, 3)
        for sentence in _said(takes, at, chance, noise):
            for word in sentence.split():
                lasts = 0.16 + 0.055 * len(word)
                words.append((clock, clock + lasts, word))
                clock += lasts
            clock += chance.choice((0.2, 0.3, 0.5, 0.9, 1.5, 3.0, 6.0, 14.0))
        clock += chance.choice((0.3, 0.6, 1.2, 4.0, 10.0))
    return Film(list(_cues(words, chance, noise.stops)), truth, order, missing, swapped)


def _cues(words: list[tuple[float, float, str]], chance: random.Random, stops: bool) -> Iterator[Cue]:
    """Five to eleven words a caption, wherever the sentence ends; a pause ends one."""
    group: list[tuple[float, float, str]] = []
    most = 8
    number = 0
    for word in [*words, None]:
        if group and (word is None or len(group) >= most or word[0] - group[-1][1] > 1.0):
            text = " ".join(one[2] for one in group)
            if not stops:
                text = re.sub(r"[.,;!?]", "", text).lower()
            yield Cue(round(group[0][0], 3), round(group[-1][1], 3), text, 4 * number + 4)
            group, most, number = [], chance.randint(5, 11), number + 1
        if word is not None:
            group.append(word)


def _said(takes: Sequence[Candidate], at: int, chance: random.Random, noise: Noise) -> list[str]:
    """The sentences of one take."""
    take = takes[at]
    sentences = _sentences(take)
    kept = [sentence for sentence in sentences if chance.random() > noise.unsaid] or sentences[:1]
    said = [_loosely(sentence, chance, noise) for sentence in kept]
    if take.step is not None:
        edges = [f"{name.part} {name.edge}".strip() for entry in take.step.work for name in
                 (*entry.things, *(name for side in entry.sides for name in side))]  # fmt: skip
        if edges:
            for _ in range(noise.improvised):
                words = {"edge": chance.choice(edges), "operation": chance.choice(take.step.work).name}
                said.insert(chance.randint(0, len(said)), chance.choice(IMPROVISED).format(**words))
    for _ in range(3):
        if chance.random() < noise.chatter:
            said.insert(chance.randint(1, len(said)), chance.choice(CHATTER))
    if chance.random() < noise.asides:
        others = [one for one in takes if one.step is not None and one is not take]
        aside = chance.choice(ASIDES).format(other=_lower(chance.choice(others).title))
        said.insert(chance.randint(1, len(said)), aside)
    if chance.random() >= noise.unopened and take.step is not None:
        title = _lower(take.title)
        opener = chance.choice(OPENERS).format(title=title, Title=take.title, number=_spelled(take.step.number))
        said.insert(0, _misheard(opener, chance, noise.misheard))
    return said


def _lower(title: str) -> str:
    return title[:1].lower() + title[1:]


def _sentences(take: Candidate) -> list[str]:
    texts = []
    if take.step is not None:
        texts += [take.step.text.value if take.step.text else take.title]
        texts += [one.say.value for one in take.step.film if one.say]
    elif take.take is not None:
        texts += [words.value for words in (take.take.say, take.take.show) if words] or [take.title]
    whole = " ".join(" ".join(texts).replace("*", "").split())
    whole = _REFERENCE.sub(lambda match: match[2] if match[1].lower() == "piece" else "that one", whole)
    return [sentence for sentence in re.split(r"(?<=[.!?])\s+", whole) if sentence]


def _loosely(sentence: str, chance: random.Random, noise: Noise) -> str:
    for start, end, length in reversed(find(sentence)):
        sentence = f"{sentence[:start]}{in_words(length)}{sentence[end:]}"
    words = []
    for word in sentence.split():
        bare = word.lower().strip(".,;:!?")
        if chance.random() < noise.dropped:
            continue
        if chance.random() < noise.fillers:
            words.append(chance.choice(FILLERS))
        if bare in OTHER_WORDS:
            word = word.lower().replace(bare, chance.choice(OTHER_WORDS[bare]))
        words.append(word)
    return _misheard(" ".join(words) or sentence, chance, noise.misheard) + (
        "" if words and words[-1][-1] in ".!?" else "."
    )


def _misheard(sentence: str, chance: random.Random, share: float) -> str:
    return " ".join(
        _other(word, chance) if len(word) > 4 and chance.random() < share else word for word in sentence.split()
    )


def _other(word: str, chance: random.Random) -> str:
    """A word that sounds a little like it: another vowel, or parted in two."""
    if chance.random() < 0.3:
        half = len(word) // 2
        return f"{word[:half]} {word[half:]}"
    return _VOWELS.sub(lambda _: chance.choice("aeiou"), word, count=1)


def _spelled(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def in_words(length: Length) -> str:
    """`1 5/8 in` is `one and five eighths of an inch`."""
    unit = {"in": "inch", "cm": "centimetre", "mm": "millimetre", "m": "metre", "yd": "yard"}[length.unit]
    whole, rest = divmod(length.amount, 1)
    if not rest:
        return f"{_spelled(int(whole))} {unit}{'' if whole == 1 else 's'}"
    if length.metric or rest.denominator not in PARTS:
        return f"{float(length.amount):g} {unit}s"
    one, more = PARTS[rest.denominator]
    part = f"a {one}" if rest.numerator == 1 else f"{_spelled(rest.numerator)} {more}"
    return f"{_spelled(int(whole))} and {part} {unit}es" if whole else f"{part} of an {unit}"
