"""An entry of `work` begins with no operation that the tool knows.

What it finds: an entry none of whose keys is an operation of the reference.

Why it matters at the machine: the entry is not sewn, so everything that builds on it is judged wrongly.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hemm: front.hem, turns: [1/4 in, 3/4 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: our choice: the operations are those of craft/operations.yaml, each with its source.
"""

LEVEL = "error"
FOUND_BY = "model"
