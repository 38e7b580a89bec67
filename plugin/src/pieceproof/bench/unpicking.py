"""Stray stitches: lines sewn before a thing was cut that now only cross its seam allowance.

In: a stack with several seams. Out: the stack with one seam, or a snag where a line holds more
than the allowance and may not be taken out.
"""

from __future__ import annotations

from dataclasses import replace

from pieceproof.bench.facing import line_facing
from pieceproof.bench.snags import CannotSew
from pieceproof.bench.stitching import seam_stretches
from pieceproof.bench.table import Stack, cut_faces
from pieceproof.shapes import Line
from pieceproof.steps import Corner, Side


def unpicked(stack: Stack, toward: Corner | Side) -> Stack:
    """Only the seam that faces ``toward``; all others must lie beyond it."""
    seams = [seam for seam in stack.seams if line_facing(seam, toward) is not None]
    if len(seams) != 1:
        raise CannotSew(f"one seam that faces the {toward.value}", f"{len(seams)} seams")
    strays = [seam for seam in stack.seams if seam is not seams[0]]
    if not strays:
        raise CannotSew("stray stitches to take out", "none")
    if any(_holds_the_body(stack, stray, seams[0], toward) for stray in strays):
        raise CannotSew("stitches in the seam allowance only", "a line that holds more than that")
    return replace(stack, seams=(seams[0],))


def _holds_the_body(stack: Stack, stray: Line, seam: Line, toward: Corner | Side) -> bool:
    beyond = line_facing(seam, toward)
    assert beyond is not None
    body = beyond.flipped()
    inside = replace(stack, lower=cut_faces(stack.lower, body), upper=cut_faces(stack.upper, body))
    return bool(seam_stretches(inside, stray))
