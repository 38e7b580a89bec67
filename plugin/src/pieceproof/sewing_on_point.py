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
from pieceproof.on_point import ROOT, OnPointLayout, RowEnd, SettingTriangle
from pieceproof.on_point import Diagonal as DiagonalOfCells
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
ROW_END = "edge cornerstone"


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


def end_cut(end: RowEnd) -> Cut:
    """The piece that a row of sashes ends in, as it lies in the row."""
    return Cut(ROW_END, end.fabric, end.needed, end.width, end.length, end.width, None, *end.ways)


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
    lying = _in_order(layout)
    starts = [0, *(_start(above, below) for above, below in pairwise(lying))]
    end = Placed(ROW_END, 0)
    numbers = {id(row): number for number, row in enumerate(layout.rows, start=1)}
    for row, start in zip(lying, starts, strict=True):
        cells = tuple(map(placed, row.cells))
        number = numbers.get(id(row))
        if number is None:
            yield DiagonalRow(None, (end, *cells, end), None, start)
        else:
            ends = (layout.triangle_at(number, at_end) for at_end in (False, True))
            first, last = (Placed(triangle.name, turn) for triangle, turn in ends)
            yield DiagonalRow(first, cells, last, start)


def _in_order(layout: OnPointLayout) -> tuple[DiagonalOfCells, ...]:
    """Rows of blocks, each below its row of sashes if there are any."""
    return tuple(sorted((*layout.rows, *layout.strips), key=lambda row: row.top))


def _start(above: DiagonalOfCells, below: DiagonalOfCells) -> int:
    """How many seams further right a row's first seam lies; the ends of sashes have one each."""
    first = below.edges[0]
    return above.edges.index(first) if first in above.edges else -below.edges.index(above.edges[0])


def _trim(layout: OnPointLayout, seam: Fraction) -> TrimEven:
    """To one seam beyond the finished size; the pieces at the edge say how far the cloth reaches.

    A side triangle reaches half its square less seam and seam root 2 over its block's corners; a
    corner one reaches half of what is left of its square after seam root 2; the end of a row of
    sashes reaches its length less a seam, on the diagonal.
    """
    half = layout.block * ROOT / 2
    side = layout.sides.square / 2 - half - seam * ROOT
    corner = (layout.corners.square - half - seam * ROOT) / 2
    end = (layout.end.length - seam) / ROOT if layout.end else corner
    over = (layout.end.width - 2 * seam) / ROOT if layout.end else Fraction(0)
    beside = max(side, corner, end) if layout.down > 1 else max(corner, end)
    above = max(side, corner, end) if layout.across > 1 else max(corner, end)
    furthest: Number = max(layout.beside, layout.above)
    return TrimEven(
        "made",
        layout.size.width + 2 * seam,
        layout.size.height + 2 * seam,
        beside - seam - layout.beside,
        above - seam - layout.above,
        furthest - layout.beside + over,
        furthest - layout.above + over,
    )
