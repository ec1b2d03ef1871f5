"""A key that is needed is missing.

What it finds: a pattern, view, piece, step, chart … without a key that the reference calls needed.

Why it matters at the machine: a step without a title has no place in the contents, a piece without edges can't be
sewn.

Wrong:
    steps:
      - {id: hem, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
