"""The drawings of a pattern, as scenes: tops, blocks, makings, assembly, strips.

In: what is published. Out: `drawing.scene.Scene`s with descriptions in words. Nothing here knows
a construction method, a colour, a file or a page.
"""
