"""A measure can’t be read.

What it finds: a measure without a number or without a unit, with a unit that is not known, or with a zero under its
bar.

Why it matters at the machine: 5/8 of what? Half of the sewers think in inches and half in centimetres.

Wrong:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4, 3/4 in]}]}

Right:
    steps:
      - {id: hem, title: Hem the front, work: [{hem: front.hem, turns: [1/4 in, 3/4 in]}]}

Source: our choice: every measure has its unit.
"""

LEVEL = "error"
FOUND_BY = "model"
