"""Sides and corners as directions on the table, and lines that face them.

In: a side or corner, a line. Out: the line with its positive side that way.
"""

from __future__ import annotations

from collections.abc import Mapping

from pieceproof.shapes import Line
from pieceproof.steps import Corner, Side

TOWARD: Mapping[Corner | Side, tuple[int, int]] = {
    Side.LEFT: (-1, 0),
    Side.TOP: (0, -1),
    Side.RIGHT: (1, 0),
    Side.BOTTOM: (0, 1),
    Corner.TOP_LEFT: (-1, -1),
    Corner.TOP_RIGHT: (1, -1),
    Corner.BOTTOM_RIGHT: (1, 1),
    Corner.BOTTOM_LEFT: (-1, 1),
}
"""Right and down."""


def line_facing(line: Line, toward: Corner | Side) -> Line | None:
    """The line with its positive side toward a corner or side.

    None where the line is not across that way: a side wants an upright or level line, a corner
    one that runs from one of its two sides to the other.
    """
    right, down = TOWARD[toward]
    rightward, downward = line.a * right, line.b * down
    if isinstance(toward, Corner):
        fits = rightward * downward > 0
    else:
        fits = line.a * line.b == 0 and rightward + downward != 0
    if not fits:
        return None
    return line if rightward + downward > 0 else line.flipped()
