"""A drawing is an address, and nothing is fetched.

What it finds: a `figure` that begins with http:, file: or the like, or with two slashes.

Why it matters at the machine: what an address shows may change or vanish, and the booklet with it.

Wrong:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: "https://example.org/front.svg", shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Right:
    views:
      A: {name: Sleeveless vest, with: [sleeveless], figure: {file: art/front.svg, shows: The vest}}
      B: {name: Sleeved vest, with: [sleeves]}

Source: our choice.
"""

LEVEL = "error"
FOUND_BY = "model"
