"""Roundings against plans and strips written down one by one."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from pieceproof.cutting.board import Board, Slot, length, yields
from pieceproof.cutting.branching import cases_of, followed
from pieceproof.cutting.effort import Effort
from pieceproof.cutting.knapsack import Tables, best_filling, tables
from pieceproof.cutting.relaxed import add_rule, relaxed, settle, started, tighten, vertex_of
from pieceproof.cutting.roundings import Limit, Rounding

EFFORT = Effort(10**12)


@st.composite
def boards(draw: st.DrawFn) -> Board:
    """Two kinds that lie both ways in the higher of two heights, and few pieces of each."""
    low = (Slot(draw(st.integers(3, 7)), 0, 1, 0), Slot(draw(st.integers(3, 7)), 1, 1, 1))
    high = (
        *(slot._replace(stack=2) for slot in low),
        Slot(draw(st.integers(1, 3)), draw(st.integers(0, 1)), 1, 2),
    )
    need = (draw(st.integers(1, 7)), draw(st.integers(1, 7)))
    return Board(draw(st.integers(7, 15)), 1, (draw(st.integers(3, 4)), 7), need, (low, high))


@st.composite
def some_roundings(draw: st.DrawFn) -> tuple[Rounding, ...]:
    """One to three."""
    found = []
    for _ in range(draw(st.integers(1, 3))):
        by = draw(st.integers(2, 5))
        found.append(Rounding(draw(st.integers(0, 1)), draw(st.integers(1, by - 1)), by))
    return tuple(found)


def every(board: Board, found: Tables) -> list[tuple[tuple[Slot, int], ...]]:
    """Every filling that fits, as often as each item is of use."""
    most = [min(item.most, board.width // item.slot.width) for item in found.items]
    fillings = []
    for counts in product(*(range(n + 1) for n in most)):
        filling = tuple(sorted((i.slot, n) for n, i in zip(counts, found.items, strict=True) if n))
        if sum(slot.width * n for slot, n in filling) <= board.width:
            fillings.append(filling)
    return fillings


def least_length(board: Board) -> int:
    """By adding strips to what is made until nothing is missing."""
    strips = {
        (board.heights[height], tuple(sorted(yields(filling).items())))
        for height, found in enumerate(tables(board, [1, 1], EFFORT))
        for filling in every(board, found)
        if filling
    }
    front = {(0, tuple(board.need))}
    seen: set[tuple[int, ...]] = set()
    while True:
        so_far, missing = min(front)
        if not any(missing):
            return so_far
        front.remove((so_far, missing))
        if missing in seen:
            continue
        seen.add(missing)
        for height, made in strips:
            pieces = dict(made)
            left = tuple(max(0, n - pieces.get(kind, 0)) for kind, n in enumerate(missing))
            front.add((so_far + height, left))


@given(boards())
@settings(max_examples=60, deadline=None)
def test_the_tightened_bound_is_between_the_relaxed_one_and_the_least_length(board: Board) -> None:
    strips = started(board, EFFORT)
    tighten(strips, 10)
    loose, tight = relaxed(board, EFFORT), vertex_of(strips)
    assert loose is not None
    assert tight is not None
    assert loose.value * tight.scale <= tight.value * loose.scale
    assert tight.bound <= least_length(board)


@given(boards(), some_roundings(), st.lists(st.integers(0, 9), min_size=5, max_size=5))
@settings(max_examples=80, deadline=None)
def test_the_best_filling_counts_what_roundings_are_worth(
    board: Board, roundings: tuple[Rounding, ...], drawn: list[int]
) -> None:
    worth = drawn[: 2 + len(roundings)]
    for found in tables(board, worth, EFFORT, roundings):
        values = {
            filling: sum(worth[kind] * n for kind, n in yields(filling).items())
            + sum(
                each * rounding.in_filling(filling)
                for each, rounding in zip(worth[2:], roundings, strict=True)
            )
            for filling in every(board, found)
        }
        assert found.top == max(values.values())
        assert found.top == values[best_filling(found)]


@given(boards())
@settings(max_examples=60, deadline=None)
def test_the_shortest_plan_is_in_one_of_the_cases(board: Board) -> None:
    for heights, fewer in ((frozenset([1]), 1), (frozenset([0, 1]), 2)):
        bounds = []
        for limit in (Limit(heights, -1, fewer), Limit(heights, 1, fewer + 1)):
            strips = started(board, EFFORT)
            tighten(strips, 2)
            add_rule(strips, limit)
            settle(strips)
            tighten(strips, 2)
            vertex = vertex_of(strips)
            assert vertex is not None
            bounds.append(vertex.bound)
        assert min(bounds) <= least_length(board)


@given(boards())
@settings(max_examples=60, deadline=None)
def test_by_cases_the_shortest_plan_is_met(board: Board) -> None:
    least = least_length(board)
    cases = cases_of(board, 0, Effort(10**10))
    assert cases is not None
    assert followed(cases, least, 0) == []
    assert cases.level == least
    plans = followed(cases, least + 2, 0)
    assert (cases.level, length(board, plans[0])) == (least, least)


def test_a_rounding_counts_slot_by_slot_and_rounds_up() -> None:
    rounding = Rounding(0, 2, 5)
    filling = ((Slot(3, 0, 3, 0), 2), (Slot(4, 0, 1, 1), 1), (Slot(5, 1, 1, 2), 7))
    assert rounding.in_filling(filling) == 3 + 1
    assert rounding.of(11) == 5
