"""Plain drawings: what to draw (scene), how it looks (style), and SVG or PNG out of it.

Goes in: a `Scene` in cloth units. Comes out: SVG text, or the bytes of a PNG.
It does not know what a block, a seam allowance or a pattern is.
"""
