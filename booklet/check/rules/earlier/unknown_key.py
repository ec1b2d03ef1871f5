"""A key is none that its place has.

What it finds: a key that the reference does not list for a pattern, a view, a piece, a step, an entry of `work` …;
most often a slip.

Why it matters at the machine: what stands after it is not read: a text, an allowance or an exception would be missing
from the booklet.

Wrong:
    steps:
      - {id: hem, titel: Hem the front, title: Hem, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: our choice: a slip of the hand must not be taken for nothing.
"""

LEVEL = "error"
FOUND_BY = "model"
