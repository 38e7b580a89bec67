"""Which way the seams of an assembly go.

In: the step that assembles, and its cells. Out: -1 toward the cell or row before, 1 toward the
one after, 0 open, for each seam.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from pieceproof.diagrams.subject import Cell, Subject
from pieceproof.steps import Assemble

_WAYS = {"left": -1, "right": 1, "up": -1, "down": 1, "open": 0}

_FROM_MIDDLE = {"inward": -1, "outward": 1}


def in_row(subject: Subject, step: Assemble, rows: Sequence[Sequence[Cell]], row: int) -> list[int]:
    """The seams of one row from the left."""
    way, seams = step.row_press[row], len(rows[row]) - 1
    if way in _WAYS:
        return [_WAYS[way]] * seams
    if way in _FROM_MIDDLE:
        return _from_middle(way, seams)
    sashes = [_is_sash(subject, cell) for cell in rows[row]]
    return _toward(sashes)


def between_rows(subject: Subject, step: Assemble, rows: Sequence[Sequence[Cell]]) -> list[int]:
    """The seams between rows from the top."""
    if step.between in _WAYS:
        return [_WAYS[step.between]] * (len(rows) - 1)
    if step.between in _FROM_MIDDLE:
        return _from_middle(step.between, len(rows) - 1)
    sashes = [_is_sash_row(subject, row) for row in rows]
    return _toward(sashes)


def _from_middle(way: str, seams: int) -> list[int]:
    """Seams on both sides of the middle, away from it or toward it."""
    sign = _FROM_MIDDLE[way]
    return [-sign] * (seams // 2) + [sign] * (seams - seams // 2)


def _toward(sashes: Sequence[bool]) -> list[int]:
    return [1 if after else -1 if before else 0 for before, after in pairwise(sashes)]


def _is_sash(subject: Subject, cell: Cell) -> bool:
    """A strip of the sashing, not a cornerstone."""
    sashing = subject.design.setting.sashing
    if sashing is None or not cell.letter or cell.flat.width == cell.flat.height:
        return False
    return cell.flat.faces[0].fabric == sashing.fabric


def _is_sash_row(subject: Subject, row: Sequence[Cell]) -> bool:
    """Nothing but strips and cornerstones."""
    return all(cell.letter for cell in row) and any(_is_sash(subject, cell) for cell in row)
