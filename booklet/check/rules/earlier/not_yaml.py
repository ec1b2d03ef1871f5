"""A file is not written as YAML.

What it finds: a place from which on the file can't be read: a bracket or quote that never closes, a colon inside
plain words, a key that stands too far in or out, a second document.

Why it matters at the machine: nothing of the file can be read, so no step of it is sewn or checked.

Wrong:
    steps:
      - id: hem
        title: Hem: the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Right:
    steps:
      - id: hem
        title: "Hem: the front"
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Source: standard: YAML 1.2.2.
"""

LEVEL = "error"
FOUND_BY = "read"
