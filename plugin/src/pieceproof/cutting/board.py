"""The grid without units: what the searches work on.

Goes in: the grid. Comes out: widths and heights divided by what they have in common, and for each
strip height the slots (a lie, how wide, how many pieces one above the other) that can be of use.
"""

from functools import reduce
from math import gcd
from typing import NamedTuple

from pieceproof.cutting.grid import Grid, Row, Rows, stacked

SCALE = 1 << 20  # one unit of length in the integer arithmetic of proofs


class Slot(NamedTuple):
    """One segment of a strip: `stack` pieces of a kind in `width`, no more than are needed."""

    width: int
    kind: int
    stack: int
    lie: int


Filling = tuple[tuple[Slot, int], ...]  # what one strip holds: slots and how often
Cut = tuple[int, int, Filling]  # (strips, number of the height, filling)


class Board(NamedTuple):
    """`heights` ascend and have their `slots`; one of the board's lengths is `unit` grid steps."""

    width: int
    unit: int
    heights: tuple[int, ...]
    need: tuple[int, ...]
    slots: tuple[tuple[Slot, ...], ...]


def board_of(grid: Grid) -> Board:
    """The grid's sizes, as small as they can be written."""
    across = reduce(gcd, (lie.across for lie in grid.lies))
    unit = reduce(gcd, grid.heights)
    return Board(
        grid.width // across,
        unit,
        tuple(height // unit for height in grid.heights),
        tuple(kind.need for kind in grid.kinds),
        tuple(tuple(_slots(grid, height, across)) for height in grid.heights),
    )


def rows_of(board: Board, cuts: list[Cut]) -> Rows:
    """Cuts of the board as rows of the grid."""
    return tuple(
        (
            Row(
                board.heights[height] * board.unit,
                tuple(sorted((slot.lie, often) for slot, often in filling)),
            ),
            strips,
        )
        for strips, height, filling in cuts
    )


def length(board: Board, cuts: list[Cut]) -> int:
    """The length of the cuts in units of the board."""
    return sum(strips * board.heights[height] for strips, height, _ in cuts)


def yields(filling: Filling) -> dict[int, int]:
    """Pieces of each kind in a filling."""
    pieces: dict[int, int] = {}
    for slot, often in filling:
        pieces[slot.kind] = pieces.get(slot.kind, 0) + slot.stack * often
    return pieces


def _slots(grid: Grid, height: int, across: int) -> list[Slot]:
    """The slots of a height, widest first, without those that another beats in both respects."""
    every = [
        Slot(
            lie.across // across,
            lie.kind,
            min(stacked(grid, height, number), grid.kinds[lie.kind].need),
            number,
        )
        for number, lie in enumerate(grid.lies)
        if lie.along <= height
    ]
    by_kind: dict[int, list[Slot]] = {}
    for slot in every:
        by_kind.setdefault(slot.kind, []).append(slot)
    useful = [
        slot for slot in every if not any(_beats(other, slot) for other in by_kind[slot.kind])
    ]
    return sorted(useful, key=lambda slot: (-slot.width, slot.kind, slot.lie))


def _beats(one: Slot, other: Slot) -> bool:
    if one.lie == other.lie:
        return False
    better = one.width <= other.width and one.stack >= other.stack
    same = one.width == other.width and one.stack == other.stack
    return better and (not same or one.lie < other.lie)
