"""A sentence is too long to follow at the machine.

What it finds: in a step's text, tip or caution, or in the words of its work, a sentence of far more words than the
twenty that plain writing asks for. A measure counts as one word. One finding a text, for its longest sentence.

Why it matters at the machine: the sewer reads a few words, looks down, sews, and has to find the place again. What
stands late in a long sentence is not done.

Wrong:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        text: >
          Lay the front on the back with the right sides together and the side edges level, and when you have pinned
          them from the armhole down to the hem sew them in one go and take the pins out.

Right:
    steps:
      - id: side
        title: Join the sides
        work: [{sew: [front.side, back.side]}]
        text: >
          Lay the front on the back, right sides together. Pin the side edges from the armhole to the hem. Sew them in
          one go.

Source: published: HHS, Plain Writing in One Page: twenty words or fewer a sentence; the margin is our choice.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.check.found import Found
from booklet.check.locate import place_of
from booklet.check.sentences import has_long_one, sentences, words_in
from booklet.craft.load import table
from booklet.model.pattern import Pattern

LEVEL = "warning"


def find_pattern(pattern: Pattern) -> Iterator[Found]:
    most = int(table("limits")["most words"]["words"])
    for step in pattern.steps:
        for text in (step.text, step.tip, step.caution, *(entry.says for entry in step.work)):
            if text is None or not has_long_one(text.value, most):
                continue
            longest = max(sentences(text.value), key=words_in, default="")
            count = words_in(longest)
            if count > most:
                begins = " ".join(longest.split()[:4])
                mend = "Make two or three sentences of it, one thing to do in each."
                says = (
                    f"The sentence that begins “{begins} …” has {count} words, too many to keep in mind while sewing."
                )
                yield Found(place_of(pattern, text, begins), step, says, mend)
