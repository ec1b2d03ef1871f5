"""A value has another shape than its key takes.

What it finds: a list where words belong, words where keys belong, an empty value, a seam with one side, an edge
without its part, a number that is none.

Why it matters at the machine: what stands there can't be read, and would be missing from the booklet.

Wrong:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: front.shoulder}]}

Right:
    steps:
      - {id: join, title: Join the shoulders, work: [{sew: [front.shoulder, back.shoulder]}]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
