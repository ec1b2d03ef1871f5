"""A piece has no outline in the files of outlines.

What it finds: a piece of the pattern whose name no block of the DXF and no group of the SVG has, or whose block or
group draws no cutting line.

Why it matters at the machine: that piece is neither measured nor drawn. A strip that is cut by its measures has no
outline: say so under `allow`.

Wrong:
    outlines: pieces.svg
    pieces:
      collar: {number: 4, cut: {self: 2}, edges: {neck: {}, left end: {}, outer: {}, right end: {}}}
      pokcet: {number: 6, cut: {self: 1}, edges: {top: {}, right side: {}, bottom: {}, left side: {}}}

Right:
    outlines: pieces.svg
    pieces:
      collar: {number: 4, cut: {self: 2}, edges: {neck: {}, left end: {}, outer: {}, right end: {}}}
      pocket: {number: 6, cut: {self: 1}, edges: {top: {}, right side: {}, bottom: {}, left side: {}}}

Source: our choice.
"""

LEVEL = "warning"
FOUND_BY = "shape"
