"""Heaps against all multisets, written down one by one: for each remainder the least loss."""

from itertools import combinations_with_replacement

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pieceproof.cutting.effort import Effort
from pieceproof.cutting.heaps import Heaps, heaps_of
from pieceproof.cutting.others import Others
from pieceproof.cutting.remainders import Field, Remainders

MODULI = (7, 5)
SUMS = Remainders(
    (Field(7, (1, 0), 0), Field(5, (0, 1), 4)),
    (1 << 3) + (1 << 7),
    (8 - 7) + ((8 - 5) << 4),
)
LARGEST = 4


@st.composite
def some_others(draw: st.DrawFn) -> Others:
    """Up to six others; some lose nothing, and may give back what they take."""
    count = draw(st.integers(1, 6))
    losses = sorted(draw(st.lists(st.integers(0, 6), min_size=count, max_size=count)))
    vectors = np.array([[draw(st.integers(0, 6)), draw(st.integers(0, 4))] for _ in losses])
    takes = np.array([[draw(st.integers(-3, 3)) for _ in losses] for _ in range(2)])
    nothing = np.zeros(count, np.int64)
    return Others(
        np.array(losses), SUMS.of_all(vectors), vectors, takes, nothing, nothing, {}, True
    )


def multisets(
    others: Others, bound: int, again: int, largest: int = LARGEST
) -> list[tuple[int, int, tuple[int, ...], int, int]]:
    """Remainder, loss, takes, size and highest loss of every multiset within the bound."""
    found = []
    for size in range(largest + 1):
        for chosen in combinations_with_replacement(range(len(others.losses)), size):
            picked = list(chosen)
            loss = int(others.losses[picked].sum())
            highest = max((int(others.losses[number]) for number in picked), default=0)
            if 2 * loss + again * highest <= bound:
                whole = others.vectors[picked].sum(axis=0)
                takes = tuple(int(n) for n in others.takes[:, picked].sum(axis=1))
                remainder = SUMS.of({0: int(whole[0]), 1: int(whole[1])})
                found.append((remainder, loss, takes, size, highest))
    return found


def made(heaps: Heaps | None) -> list[tuple[int, int, tuple[int, ...]]]:
    assert heaps is not None
    return [
        (int(remainder), int(loss), tuple(map(int, takes)))
        for remainder, loss, takes in zip(
            heaps.remainders, heaps.losses, heaps.takes.T, strict=True
        )
    ]


@pytest.mark.parametrize("again", [0, 1])
@pytest.mark.parametrize("watch", [[], [1], [0, 1]])
@given(some_others(), st.integers(0, 28))
@settings(max_examples=120, deadline=None)
def test_what_a_multiset_offers_a_heap_offers_too(
    watch: list[int], again: int, others: Others, bound: int
) -> None:
    """What beats a multiset may itself be beyond the bound where its highest loss counts again: no
    shortest plan holds the multiset then.
    """
    heaps = made(heaps_of(others, SUMS, bound, again, LARGEST, watch, 10**6, Effort(10**12)))
    every = multisets(others, 10**6, 0, LARGEST + 2)
    for remainder, loss, takes, size, _ in multisets(others, bound, again):
        watched = [takes[row] for row in watch]
        offered = any(
            remainder == r
            and loss >= least
            and all(a <= b for a, b in zip(t, watched, strict=True))
            for r, least, t in heaps
        )
        assert offered or any(
            remainder == r
            and (less, fewer) <= (loss, size)
            and 2 * less + again * highest > bound
            and all(t[row] <= takes[row] for row in watch)
            for r, less, t, fewer, highest in every
        )


@given(some_others(), st.integers(0, 28))
@settings(max_examples=80, deadline=None)
def test_a_heap_is_what_its_others_add_up_to(others: Others, bound: int) -> None:
    heaps = heaps_of(others, SUMS, bound, 0, LARGEST, [0], 10**6, Effort(10**12))
    assert heaps is not None
    for number in range(len(heaps.losses)):
        picked = heaps.others_in(number)
        assert heaps.losses[number] == others.losses[picked].sum() <= bound // 2
        assert heaps.takes[0, number] == others.takes[0, picked].sum()
        whole = others.vectors[picked].sum(axis=0)
        assert heaps.remainders[number] == SUMS.of({0: int(whole[0]), 1: int(whole[1])})
        assert len(picked) <= LARGEST
        if picked:
            assert heaps.first[number] == min(picked)


def test_more_heaps_than_allowed_are_given_up() -> None:
    vectors = np.array([[1, 0], [0, 1]])
    nothing = np.zeros(2, np.int64)
    takes = np.zeros((1, 2), np.int64)
    others = Others(nothing, SUMS.of_all(vectors), vectors, takes, nothing, nothing, {}, True)
    assert heaps_of(others, SUMS, 5, 0, 40, [], 20, Effort(10**12)) is None
    assert heaps_of(others, SUMS, 5, 0, 40, [], 35, Effort(10**12)) is not None
