"""A value is none of the words that its key takes.

What it finds: another word than the few that a key takes, such as those of `seam`, `how`, `curve`, `kind` or `units`.

Why it matters at the machine: the seam would be sewn and drawn in another way than it was meant.

Wrong:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: frensh, passes: [3/8 in, 1/4 in]}]

Right:
    steps:
      - id: join
        title: Join the shoulders
        work: [{sew: [front.shoulder, back.shoulder], seam: french, passes: [3/8 in, 1/4 in]}]

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
