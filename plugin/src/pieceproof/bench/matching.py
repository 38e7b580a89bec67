"""Cells and rows joined although their edges differ: middles matched, ends cut off even.

In: things as they lie (those without faces are followed by size) and an allowance for every seam.
Out: one flat rectangle, every edge that did not fit, and where the seams across each row lie.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Faces, Flat, moved, pared
from pieceproof.lengths import Number
from pieceproof.steps import Assemble, Placed, Side

Rows: TypeAlias = tuple[tuple[Number, ...], ...]
"""For each row the places of its seams, measured from its middle."""


@dataclass(frozen=True)
class Misfit:
    """An edge that is not as long as the one it is sewn to.

    ``what`` is the letter or name of what is added, or of all in a row; ``found`` its length and
    ``wanted`` that of the edge it meets.
    """

    step: int
    what: str
    found: Number
    wanted: Number

    @property
    def excess(self) -> Number:
        """Positive: too long; half of it sticks out at each end."""
        return self.found - self.wanted


def evened(thing: Flat, width: Number, height: Number) -> Flat:
    """The thing cut back to this size, alike on both sides."""
    if (thing.width, thing.height) == (width, height):
        return thing
    across, down = (thing.width - width) / 2, (thing.height - height) / 2
    return Flat(moved(pared(thing, across, down, across, down), -across, -down), width, height)


def joined_at_middles(base: Flat, added: Flat, side: Side, allowance: Fraction) -> Flat:
    """``added`` sewn to a side of ``base``."""
    pair = (added, base) if side in (Side.LEFT, Side.TOP) else (base, added)
    if side in (Side.LEFT, Side.RIGHT):
        return _row(pair, lambda: allowance)[0]
    width = min(thing.width for thing in pair)
    return _column([evened(thing, width, thing.height) for thing in pair], lambda: allowance)


def rows_at_middles(
    step: Assemble,
    cells: Mapping[Placed, Flat],
    made: Collection[str],
    in_row: Callable[[], Fraction],
    between: Callable[[], Fraction],
) -> tuple[Flat, tuple[Misfit, ...], Rows]:
    """Cells joined to rows and rows to a whole; ``made`` names what others are measured by.

    The allowance of each seam is asked for once, row by row from the left, then from the top.
    """
    misfits = [m for row in step.rows for m in _row_misfits(row, cells, made)]
    sewn = [_row([cells[placed] for placed in row], in_row) for row in step.rows]
    widths = [row.width for row, _ in sewn]
    wanted = _measure_of(widths, [any(p.source in made for p in row) for row in step.rows])
    named = (" and ".join(dict.fromkeys(p.source for p in row)) for row in step.rows)
    misfits += [
        Misfit(0, name, width, wanted)
        for name, width in dict(zip(named, widths, strict=True)).items()
        if width != wanted
    ]
    least = min(widths)
    column = _column([evened(row, least, row.height) for row, _ in sewn], between)
    return column, tuple(misfits), tuple(seams for _, seams in sewn)


def _measure_of(lengths: Sequence[Number], is_made: Sequence[bool]) -> Number:
    """What the others are held against: the shortest sewn thing, else the shortest of all."""
    sewn = [length for length, made in zip(lengths, is_made, strict=True) if made]
    return min(sewn or lengths)


def _row_misfits(
    row: Sequence[Placed], cells: Mapping[Placed, Flat], made: Collection[str]
) -> Iterator[Misfit]:
    heights = {placed: cells[placed].height for placed in row}
    wanted = _measure_of(list(heights.values()), [placed.source in made for placed in heights])
    for placed, height in heights.items():
        if height != wanted:
            yield Misfit(0, placed.source, height, wanted)


def _row(
    cells: Sequence[Flat], allowance: Callable[[], Fraction]
) -> tuple[Flat, tuple[Number, ...]]:
    """Cells side by side, and the places of the seams from the row's middle."""
    height = min(cell.height for cell in cells)
    allowances = [Fraction(0), *(allowance() for _ in cells[1:]), Fraction(0)]
    faces: list[Faces] = []
    seams: list[Number] = []
    left: Number = Fraction(0)
    for cell, (before, behind) in zip(cells, pairwise(allowances), strict=True):
        if before + behind >= cell.width:
            raise CannotSew("seam allowances narrower than the cloth", "wider ones")
        even = evened(cell, cell.width, height)
        faces.append(
            moved(pared(even, before, Fraction(0), behind, Fraction(0)), left - before, Fraction(0))
        )
        left = left + cell.width - before - behind
        seams.append(left)
    middle = left / 2
    whole = Flat(tuple(face for part in faces for face in part), left, height)
    return whole, tuple(seam - middle for seam in seams[:-1])


def _column(rows: Sequence[Flat], allowance: Callable[[], Fraction]) -> Flat:
    """Rows of one width, one below the other."""
    allowances = [Fraction(0), *(allowance() for _ in rows[1:]), Fraction(0)]
    faces: list[Faces] = []
    top: Number = Fraction(0)
    for row, (before, behind) in zip(rows, pairwise(allowances), strict=True):
        if before + behind >= row.height:
            raise CannotSew("seam allowances narrower than the cloth", "wider ones")
        faces.append(
            moved(pared(row, Fraction(0), before, Fraction(0), behind), Fraction(0), top - before)
        )
        top = top + row.height - before - behind
    return Flat(tuple(face for part in faces for face in part), rows[0].width, top)
