"""Straight seams along whole edges: one thing to another, cells to rows, rows to a whole.

In: flat rectangles. Out: one flat rectangle; cloth inside the seams is gone from sight.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import accumulate

from quicktions import Fraction

from pieceproof.bench.snags import CannotSew
from pieceproof.bench.table import Faces, Flat, is_rectangle, moved, pared, turned
from pieceproof.bench.words import counted, excess, length
from pieceproof.lengths import Number
from pieceproof.steps import SPUN, Assemble, Placed, Side, seam_ways


def joined(base: Flat, added: Flat, side: Side, allowance: Fraction) -> Flat:
    """``added`` sewn to a side of ``base``, edges even from end to end."""
    for thing, name in ((base, "the first"), (added, "the added one")):
        _check_rectangle(thing, name)
    if side in (Side.LEFT, Side.RIGHT):
        _check_equal(added.height, base.height)
        left, right = (added, base) if side is Side.LEFT else (base, added)
        _check_deeper(allowance, min(left.width, right.width))
        zero = Fraction(0)
        shift = left.width - 2 * allowance
        faces = (
            *pared(left, zero, zero, allowance, zero),
            *moved(pared(right, allowance, zero, zero, zero), shift, zero),
        )
        return Flat(faces, shift + right.width, base.height)
    quarter = joined(turned(base, 3), turned(added, 3), _TURNED_BACK[side], allowance)
    return turned(quarter, 1)


def assembled(step: Assemble, sources: Mapping[str, Flat]) -> Flat:
    """Cells sewn to rows and rows to a whole, each cell cut back at its inner seams once."""
    _check_rows(step)
    for name, thing in sources.items():
        _check_rectangle(thing, f"“{name}”")
    placed = dict.fromkeys(placed for row in step.rows for placed in row)
    cells = {p: turned(sources[p.source], p.turn) for p in placed}
    heights = [_row_height(row, number, cells) for number, row in enumerate(step.rows, start=1)]
    widths = [_row_width(row, cells, step.allowance) for row in step.rows]
    for number, width in enumerate(widths[1:], start=2):
        _check_equal(width, widths[0], f"row {number} as long as the row above")
    _check_deeper(step.allowance, min(min(c.width, c.height) for c in cells.values()))
    faces = _sewn_rows(step, cells, heights)
    return Flat(faces, widths[0], sum(heights) - 2 * step.allowance * (len(heights) - 1))


def _sewn_rows(step: Assemble, cells: Mapping[Placed, Flat], heights: Sequence[Number]) -> Faces:
    a, zero = step.allowance, Fraction(0)
    ready: dict[tuple[Placed, bool, bool, bool, bool], Faces] = {}
    faces: list[Faces] = []
    tops = accumulate((h - 2 * a for h in heights[:-1]), initial=zero)
    for row, (placed_row, top) in enumerate(zip(step.rows, tops, strict=True)):
        left: Number = zero
        for column, placed in enumerate(placed_row):
            inner = (column > 0, row > 0, column + 1 < len(placed_row), row + 1 < len(step.rows))
            key = (placed, *inner)
            if key not in ready:
                ready[key] = pared(cells[placed], *(a if sewn else zero for sewn in inner))
            faces.append(moved(ready[key], left, top))
            left = left + cells[placed].width - 2 * a
    return tuple(face for part in faces for face in part)


def _row_height(row: Sequence[Placed], number: int, cells: Mapping[Placed, Flat]) -> Number:
    height = cells[row[0]].height
    for placed in row[1:]:
        wanted = f"“{placed.source}” as tall as the other cells of row {number}"
        _check_equal(cells[placed].height, height, wanted)
    return height


def _row_width(row: Sequence[Placed], cells: Mapping[Placed, Flat], allowance: Fraction) -> Number:
    total: Number = Fraction(0)
    for placed in row:
        total = total + cells[placed].width
    return total - 2 * allowance * (len(row) - 1)


def _check_rows(step: Assemble) -> None:
    if not step.rows or not all(step.rows):
        raise CannotSew("cells in every row", "an empty row")
    if len(step.row_press) != len(step.rows):
        raise CannotSew(f"{len(step.rows)} rows to press", f"{len(step.row_press)} directions")
    for row, press in zip(step.rows, step.row_press, strict=True):
        check_pressed(press, len(row) - 1)
    if step.between != SPUN:
        check_pressed(step.between, len(step.rows) - 1)
    elif [len(row) for row in step.rows] != [2, 2] or len(set(step.row_press)) == 1:
        raise CannotSew("two rows of two pressed opposite ways, to be spun", "other rows")


def check_pressed(press: str, seams: int) -> None:
    """Words that say where so many seams go."""
    try:
        known = seam_ways(press, seams)
    except KeyError:
        raise CannotSew("a word for where seams are pressed", f"“{press}”") from None
    if len(known) != seams:
        raise CannotSew(f"{counted(seams, 'seam')} to press", f"{len(known)} directions")


def _check_rectangle(thing: Flat, name: str) -> None:
    if not is_rectangle(thing):
        raise CannotSew(f"{name} to be a rectangle", "another outline")


def _check_equal(found: Number, expected: Number, wanted: str = "edges of one length") -> None:
    if found != expected:
        raise CannotSew(
            f"{wanted}: {length(expected)}",
            length(found),
            excess(found, expected, "too long", "too short"),
        )


def _check_deeper(allowance: Fraction, least: Number) -> None:
    if not 0 < allowance < least:
        raise CannotSew("a seam allowance narrower than the cloth", length(allowance))


_TURNED_BACK: Mapping[Side, Side] = {Side.TOP: Side.LEFT, Side.BOTTOM: Side.RIGHT}
