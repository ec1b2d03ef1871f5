"""A YAML tag stands in the source.

What it finds: `!` and a word before a value. No tag is followed, and nothing is ever run from a pattern's files.

Why it matters at the machine: an exclamation mark that was meant as one would vanish from the booklet.

Wrong:
    steps:
      - id: hem
        title: !important Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Right:
    steps:
      - id: hem
        title: Hem the front!
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Source: our choice: the source is text.
"""

LEVEL = "error"
FOUND_BY = "read"
