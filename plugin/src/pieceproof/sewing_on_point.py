"""How a setting on point is cut and sewn: triangles out of squares, diagonal rows, an even edge.

In: an `OnPointLayout`. Out: cuts and steps; what the blocks are made of is the caller's business.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from quicktions import Fraction

from pieceproof.cells import Laid
from pieceproof.lengths import Number
from pieceproof.methods.method import Cut
from pieceproof.on_point import ROOT, OnPointLayout, SettingTriangle
from pieceproof.steps import (
    AssembleOnPoint,
    CutApart,
    Diagonal,
    DiagonalRow,
    Placed,
    Slope,
    Step,
    Take,
    TrimEven,
    Turn,
    Yield,
)

SQUARE = "square"


def square_of(triangle: SettingTriangle) -> Cut:
    """The square that the triangles are cut from."""
    side = triangle.square
    ways = (triangle.way, triangle.way)
    needed = (triangle.needed, triangle.needed)
    return Cut(SQUARE, triangle.fabric, *needed, side, side, None, *ways)


def triangle_steps(triangle: SettingTriangle) -> tuple[Step, ...]:
    """Cut on one diagonal or on both, so that the straight grain runs along the outer edge."""
    rising, falling = (Diagonal(slope, Fraction(0)) for slope in (Slope.RISING, Slope.FALLING))
    halves = (Take(SQUARE, SQUARE), CutApart(SQUARE, rising, "first", "second"))
    if triangle.each == 2:
        return (*halves, Turn("second", 2), Yield(("first", "second")))
    return (
        *halves,
        CutApart("first", falling, "top", "left"),
        CutApart("second", falling, "right", "bottom"),
        Turn("top", 2),
        Turn("left", 3),
        Turn("right", 1),
        Yield(("top", "left", "right", "bottom")),
    )


def on_point_steps(
    layout: OnPointLayout, seam: Fraction, placed: Callable[[Laid], Placed]
) -> tuple[Step, ...]:
    """Rows from the top left, corners last, then trimmed; ``placed`` says what a cell is."""
    rows = tuple(_rows(layout, placed))
    join = AssembleOnPoint(
        "made",
        Placed(layout.corners.name, 0),
        rows,
        Placed(layout.corners.name, 2),
        seam,
        ("right",) * len(rows),
        "down",
    )
    return (join, _trim(layout, seam), Yield(("made",)))


def _rows(layout: OnPointLayout, placed: Callable[[Laid], Placed]) -> Iterator[DiagonalRow]:
    columns = [row.column for row in layout.rows]
    starts = [0, *(below - above for above, below in pairwise(columns))]
    for number, (row, start) in enumerate(zip(layout.rows, starts, strict=True), start=1):
        ends = (layout.triangle_at(number, at_end) for at_end in (False, True))
        first, last = (Placed(triangle.name, turn) for triangle, turn in ends)
        yield DiagonalRow(first, tuple(map(placed, row.cells)), last, start)


def _trim(layout: OnPointLayout, seam: Fraction) -> TrimEven:
    """To one seam beyond the finished size; the triangles' squares say how far the cloth reaches.

    A side triangle reaches half its square less seam and seam root 2 over its block's corners; a
    corner one reaches half of what is left of its square after seam root 2.
    """
    half = layout.block * ROOT / 2
    side = layout.sides.square / 2 - half - seam * ROOT
    corner = (layout.corners.square - half - seam * ROOT) / 2
    beside = max(side, corner) if layout.down > 1 else corner
    above = max(side, corner) if layout.across > 1 else corner
    furthest: Number = max(layout.beside, layout.above)
    return TrimEven(
        "made",
        layout.size.width + 2 * seam,
        layout.size.height + 2 * seam,
        beside - seam - layout.beside,
        above - seam - layout.above,
        furthest - layout.beside,
        furthest - layout.above,
    )
