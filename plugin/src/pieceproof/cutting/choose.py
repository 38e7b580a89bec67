"""Which of several plans for the same pieces is cut: the tie-breaks.

Goes in: the grid and rows that each hold every piece. Comes out: the strips of the best. It makes
no rows of its own but for filling the strips of a plan in a simpler way.
"""

from collections import Counter
from collections.abc import Sequence

from quicktions import Fraction

from pieceproof.cutting.greedy import refilled
from pieceproof.cutting.grid import Grid, Row, Rows
from pieceproof.cutting.lay import strips_of
from pieceproof.cutting.plain import plain_strips
from pieceproof.cutting.plan import Strip, cross_cuts_of, used_across

Merit = tuple[Fraction | int, ...]


def best_strips(grid: Grid, plans: Sequence[Rows]) -> tuple[Strip, ...]:
    """The shortest; then the fewest strips, ruler settings and cross-cuts, then the largest piece
    left over whole, then the fewest different strips; the first of equals.
    """
    width = grid.width * grid.step
    alike = [_merged(rows) for rows in plans]
    ways = (*alike, *(_piled(grid, rows) for rows in alike))
    laid = [plain_strips(strips_of(grid, rows)) for rows in ways]
    return min(laid, key=lambda strips: merit(strips, width))


def simpler(grid: Grid, rows: Rows) -> tuple[Rows, ...]:
    """The rows, and the same strips filled size by size where that holds every piece."""
    strips: Counter[int] = Counter()
    for row, count in rows:
        strips[row.height] += count
    return (*refilled(grid, strips), rows)


def merit(strips: Sequence[Strip], width: Fraction) -> Merit:
    """What a plan is judged by, the most important first; less is better."""
    left_over = [(width - used_across(strip)) * strip.height for strip in strips]
    return (
        sum((strip.height * strip.count for strip in strips), Fraction(0)),
        sum(strip.count for strip in strips),
        len({strip.height for strip in strips}),
        sum(strip.count * cross_cuts_of(strip, width) for strip in strips),
        -max(left_over, default=Fraction(0)),
        len(strips),
    )


def _piled(grid: Grid, rows: Rows) -> Rows:
    """Equal strips one above the other, cut as one higher strip where some piece is so high."""
    piled: list[tuple[Row, int]] = []
    for row, strips in rows:
        left = strips
        for height in reversed(grid.heights):
            times, rest = divmod(height, row.height)
            if not rest and 1 < times <= left:
                piled.append((Row(height, row.segments), left // times))
                left %= times
        if left:
            piled.append((row, left))
    return tuple(piled)


def _merged(rows: Rows) -> Rows:
    """Equal strips counted together."""
    counts: Counter[Row] = Counter()
    for row, count in rows:
        counts[Row(row.height, tuple(sorted(row.segments)))] += count
    return tuple(counts.items())
