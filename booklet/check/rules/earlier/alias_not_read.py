"""An anchor or an alias stands in the source.

What it finds: `&name` before a value, or `*name` in place of one. The source has none, so that every text stands
where it is read.

Why it matters at the machine: a star or an ampersand that was meant as a word would vanish from the booklet.

Wrong:
    steps:
      - id: hem
        title: &hem Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Right:
    steps:
      - id: hem
        title: Hem the front
        work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]

Source: our choice: what is read stands where it is written; and a file can't blow up in memory.
"""

LEVEL = "error"
FOUND_BY = "read"
