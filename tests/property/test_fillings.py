"""Fillings of a strip against all fillings, written down one by one."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from pieceproof.cutting.board import Board, Slot, yields
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import Tables, best_filling, filling_of, fillings_within, tables

EFFORT = Effort(10**12)


@st.composite
def boards(draw: st.DrawFn) -> tuple[Board, list[int]]:
    """One height, two to four slots of as many kinds, and what their pieces are worth."""
    kinds = draw(st.integers(2, 4))
    slots = tuple(
        Slot(draw(st.integers(2, 9)), kind, draw(st.integers(1, 3)), kind) for kind in range(kinds)
    )
    need = tuple(draw(st.integers(1, 12)) for _ in range(kinds))
    worth = [draw(st.integers(0, 20)) for _ in range(kinds)]
    return Board(draw(st.integers(9, 24)), 1, (5,), need, (slots,)), worth


def every(board: Board, found: Tables) -> dict[tuple[int, ...], int]:
    """Every filling that fits, as often as each item is cut, with its worth."""
    items = found.items
    most = [min(item.most, board.width // item.slot.width) for item in items]
    fitting = {}
    for counts in product(*(range(n + 1) for n in most)):
        used = sum(n * item.slot.width for n, item in zip(counts, items, strict=True))
        if used <= board.width:
            fitting[counts] = sum(n * item.worth for n, item in zip(counts, items, strict=True))
    return fitting


@given(boards(), st.integers(0, 30))
@settings(max_examples=150, deadline=None)
def test_fillings_within_a_loss_are_all_full_fillings_of_that_loss(
    drawn: tuple[Board, list[int]], loss: int
) -> None:
    board, worth = drawn
    (found,) = tables(board, worth, EFFORT)
    fitting = every(board, found)
    assert found.top == max(fitting.values())
    full = {
        counts: value
        for counts, value in fitting.items()
        if not any(
            (*counts[:i], counts[i] + 1, *counts[i + 1 :]) in fitting for i in range(len(counts))
        )
    }
    rows = fillings_within(found, loss, 10**6, EFFORT)
    assert rows is not None
    listed = sorted(tuple(map(int, row)) for row in rows)
    assert listed == sorted(c for c, value in full.items() if value >= found.top - loss)


@given(boards())
@settings(max_examples=100, deadline=None)
def test_the_best_filling_is_worth_the_most(drawn: tuple[Board, list[int]]) -> None:
    board, worth = drawn
    (found,) = tables(board, worth, EFFORT)
    filling = best_filling(found)
    assert sum(slot.width * often for slot, often in filling) <= board.width
    assert sum(worth[kind] * n for kind, n in yields(filling).items()) == found.top


def test_too_many_fillings_are_not_listed() -> None:
    slots = tuple(Slot(width, width, 1, width) for width in range(1, 9))
    board = Board(60, 1, (5,), (60,) * 9, (slots,))
    (found,) = tables(board, [1] * 9, EFFORT)
    assert fillings_within(found, 60, 100, EFFORT) is None


def test_a_row_of_counts_is_a_filling() -> None:
    board = Board(10, 1, (5,), (4, 4), ((Slot(3, 0, 1, 0), Slot(2, 1, 2, 1)),))
    (found,) = tables(board, [3, 2], EFFORT)
    rows = fillings_within(found, 0, 100, EFFORT)
    assert rows is not None
    for row in rows:
        filling = filling_of(found, row)
        assert sum(slot.width * often for slot, often in filling) == 10
