"""Residues, and lengths that are met or refused; the whole planner is refereed in tests/bench."""

from itertools import product

import pytest

from pieceproof.cutting.board import Board, Slot, length
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.exact import inverse_of, residues_of
from pieceproof.cutting.meeting import meet, meeting_of
from pieceproof.cutting.relaxed import relaxed

MATRICES = [[[4, 2], [0, 6]], [[2, 0, 1], [0, 4, 2], [6, 3, 3]], [[5, 0], [0, 5]]]


@pytest.mark.parametrize("matrix", MATRICES)
def test_a_matrix_times_its_inverse_is_the_scale(matrix: list[list[int]]) -> None:
    found = inverse_of(matrix)
    assert found is not None
    inverse, scale = found
    size = range(len(matrix))
    for i, j in product(size, size):
        assert sum(matrix[i][k] * inverse[k][j] for k in size) == scale * (i == j)


def test_a_matrix_without_inverse() -> None:
    assert inverse_of([[1, 2], [2, 4]]) is None


@pytest.mark.parametrize("matrix", MATRICES)
def test_vectors_have_equal_residues_just_when_columns_lead_from_one_to_the_other(
    matrix: list[list[int]],
) -> None:
    found = inverse_of(matrix)
    assert found is not None
    inverse, scale = found
    residues = residues_of(matrix, scale)
    for vector in product(range(-3, 4), repeat=len(matrix)):
        whole = all(
            sum(share * n for share, n in zip(shares, vector, strict=True)) % scale == 0
            for shares in inverse
        )
        nothing = all(
            sum(entry * n for entry, n in zip(row, vector, strict=True)) % modulus == 0
            for modulus, row in zip(residues.moduli, residues.rows, strict=True)
        )
        assert whole == nothing, vector


def slot(width: int, kind: int, stack: int, lie: int) -> Slot:
    return Slot(width, kind, stack, lie)


def test_a_length_is_refused_and_the_next_is_met() -> None:
    """By hand: one strip of 5 for kind 0, one for kind 1 and three of kind 2, one of 17 for 26 of
    kind 2 standing, five of 3 for four each: 5 + 5 + 17 + 15 = 42 holds 1, 1 and 49.
    """
    low = (slot(17, 2, 1, 2),)
    middle = (slot(80, 0, 1, 0), slot(29, 1, 1, 1), *low)
    high = (slot(80, 0, 3, 0), slot(29, 1, 3, 1), slot(17, 2, 5, 2), slot(3, 2, 1, 3))
    board = Board(80, 4, (3, 5, 17), (1, 1, 48), (low, middle, high))
    effort = Effort(10_000_000)
    vertex = relaxed(board, effort)
    assert vertex is not None
    meeting = meeting_of(vertex)
    assert meeting is not None
    for least, verdict in ((41, "impossible"), (42, "packed")):
        found, plans = meet(meeting, least, 1000, 10_000, effort)
        assert found == verdict
    assert {length(board, cuts) for cuts in plans} == {42}


def test_numbers_too_large_for_arrays_are_not_searched() -> None:
    board = Board(80, 4, (3,), (1 << 61,), ((slot(17, 0, 1, 0),),))
    vertex = relaxed(board, Effort(10_000_000))
    assert vertex is None or meeting_of(vertex) is None
