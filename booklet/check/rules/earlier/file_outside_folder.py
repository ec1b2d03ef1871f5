"""A file lies outside the pattern's folder.

What it finds: a drawing, or a file that is a link, whose true place is not in the folder of the pattern. It is not
read.

Why it matters at the machine: the booklet could not be built on another machine, and a pattern from a stranger could
show what is none of its business.

Wrong:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: ../front.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Right:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/front.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
