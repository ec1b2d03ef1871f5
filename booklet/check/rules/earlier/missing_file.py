"""A drawing is not in the folder.

What it finds: a `figure` whose file is not there, or can't be opened.

Why it matters at the machine: the step has no picture, and the words speak of one.

Wrong:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/fornt.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Right:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/front.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
