"""A drawing holds what a booklet does not take.

What it finds: a `figure` that is no SVG, is larger than 2 MB, does not say how large it is, or holds a script, a
link, an animation or a pointer to another file.

Why it matters at the machine: the drawing would look otherwise on paper than on the screen, or would do something on
the sewer's phone.

Wrong:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: pattern.yaml, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Right:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/front.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
