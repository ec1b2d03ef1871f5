"""A key is written twice in one place.

What it finds: the same key twice in one mapping, without regard to case and doubled blanks. The first one is kept.

Why it matters at the machine: of two texts one would be lost, and nobody could say which the sewer was to read.

Wrong:
    steps:
      - id: hem
        title: Hem the front
        text: Turn it up.
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]
        text: Turn it up twice.

Right:
    steps:
      - id: hem
        title: Hem the front
        text: Turn it up twice.
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Source: standard: YAML 1.2.2, section 3.2.1.1: the keys of a mapping are unique.
"""

LEVEL = "error"
FOUND_BY = "read"
