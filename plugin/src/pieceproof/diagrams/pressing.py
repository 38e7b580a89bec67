"""Which way the seams of an assembly go.

In: the step that assembles. Out: -1 toward the cell or row before, 1 toward the one after, 0
open, for each seam.
"""

from __future__ import annotations

from pieceproof.steps import SPUN, Assemble, seam_ways


def in_row(step: Assemble, row: int) -> tuple[int, ...]:
    """The seams of one row from the left."""
    return seam_ways(step.row_press[row], len(step.rows[row]) - 1)


def between_rows(step: Assemble) -> tuple[tuple[int, int], ...]:
    """The seams between rows from the top, each at its left and at its right end."""
    if step.between == SPUN:
        right = seam_ways(step.row_press[0], 1)[0]
        return ((-right, right),)
    return tuple((way, way) for way in seam_ways(step.between, len(step.rows) - 1))
