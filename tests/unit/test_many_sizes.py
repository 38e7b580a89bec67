"""Lists of many sizes and few pieces of each: cloth cut up from edge to edge, so that its own
length is known to hold all pieces if they may be laid anywhere.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest
from quicktions import Fraction

from pieceproof.cutting.board import board_of, length, rows_of
from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import Demand, Want
from pieceproof.cutting.effort import STEPS_PER_SECOND, Effort
from pieceproof.cutting.greedy import greedy_plans
from pieceproof.cutting.grid import grid_of, length_of, pieces_in
from pieceproof.cutting.planner import plan
from pieceproof.cutting.successive import successive

Rectangle = tuple[int, int]
SECOND = STEPS_PER_SECOND


def numbers(seed: int) -> Iterator[int]:
    """Park and Miller, Comm. ACM 31 (1988) 1192-1201."""
    while True:
        seed = seed * 16807 % (2**31 - 1)
        yield seed


def cut_up(width: int, high: int, pieces: int) -> Demand:
    """The largest piece is cut in two, again and again."""
    draw, left = numbers(pieces), [(width, high)]
    while len(left) < pieces:
        across, along = left.pop(max(range(len(left)), key=lambda n: left[n][0] * left[n][1]))
        longer = max(across, along)
        cut = 1 + (next(draw) >> 7) % (longer - 1)
        left += (
            [(cut, along), (across - cut, along)]
            if across == longer
            else [(across, cut), (across, along - cut)]
        )
    return listed(width, left)


def listed(width: int, rectangles: list[Rectangle]) -> Demand:
    wants = tuple(
        Want(f"P{number}", Fraction(across), Fraction(along), count, turnable=True)
        for number, ((across, along), count) in enumerate(sorted(Counter(rectangles).items()))
    )
    return Demand(wants, (), Fraction(width), Fraction(1), Fraction(0))


@pytest.mark.parametrize(("width", "high", "pieces"), [(20, 20, 16), (40, 15, 25)])
def test_small_ones_are_proven(width: int, high: int, pieces: int) -> None:
    demand = cut_up(width, high, pieces)
    found, problems = plan(demand, 2 * SECOND)
    assert (problems, plan_faults(demand, found)) == ((), ())
    assert found.proven
    assert found.length >= high


@pytest.mark.parametrize(("width", "high", "pieces"), [(60, 60, 49), (60, 90, 73), (80, 120, 97)])
def test_large_ones_are_shorter_than_plans_made_at_the_table(
    width: int, high: int, pieces: int
) -> None:
    demand = cut_up(width, high, pieces)
    found, problems = plan(demand)
    assert (problems, plan_faults(demand, found)) == ((), ())
    at_the_table = min(map(length_of, greedy_plans(grid_of(demand))))
    assert high <= found.bound <= found.length < at_the_table


def test_strip_after_strip_every_piece_is_cut() -> None:
    grid = grid_of(cut_up(60, 60, 49))
    board, effort = board_of(grid), Effort(SECOND // 4)
    cuts = successive(board, effort)
    held: Counter[int] = Counter()
    for row, strips in rows_of(board, cuts):
        assert sum(grid.lies[lie].across * often for lie, often in row.segments) <= grid.width
        for kind, pieces in pieces_in(grid, row).items():
            held[kind] += strips * pieces
    assert all(held[number] >= kind.need for number, kind in enumerate(grid.kinds))
    assert length(board, cuts) * board.unit >= 60


def test_strip_after_strip_ends_with_its_effort() -> None:
    board = board_of(grid_of(cut_up(80, 120, 97)))
    effort = Effort(SECOND // 10)
    successive(board, effort)
    assert effort.left > -SECOND // 100


def test_no_more_pieces_are_counted_in_a_segment_than_are_needed() -> None:
    """One piece 2 high beside one 20 high: nine times its room is nothing that it is worth."""
    board = board_of(grid_of(listed(10, [(5, 20), (4, 2)])))
    assert {slot.stack for slots in board.slots for slot in slots} == {1}
