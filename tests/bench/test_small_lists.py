"""The shortest plan of small lists against an integer program of its own (HiGHS through SciPy).

Few pieces of each size: there the amounts of the relaxed program's fillings come out below zero.
"""

import pytest
from lists import _below, _numbers
from quicktions import Fraction
from yardsticks import fewest_strips, referee

from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import EIGHTH_INCH, Demand, Want
from pieceproof.cutting.effort import STEPS_PER_SECOND
from pieceproof.cutting.plan import strip_count
from pieceproof.cutting.planner import plan


def small_list(number: int) -> Demand:
    """Two to four sizes, one to nine pieces of each, 20 or 40 in wide."""
    draw = _numbers(7919 + 31 * number)
    sizes: dict[tuple[Fraction, Fraction], Want] = {}
    wanted = 2 + _below(draw, 3)
    while len(sizes) < wanted:
        across, along = (Fraction(3 + _below(draw, 24), 2) for _ in range(2))
        letter = chr(ord("A") + len(sizes))
        turnable = _below(draw, 4) > 0
        want = Want(letter, across, along, 1 + _below(draw, 9), turnable=turnable)
        sizes.setdefault((across, along), want)
    width = Fraction(20 * (1 + _below(draw, 2)))
    return Demand(tuple(sizes.values()), (), width, EIGHTH_INCH, Fraction(1))


@pytest.mark.parametrize("number", range(40))
def test_a_small_list_is_as_short_as_the_referee_says(number: int) -> None:
    demand = small_list(number)
    found, problems = plan(demand, 2 * STEPS_PER_SECOND)
    assert (problems, plan_faults(demand, found)) == ((), ())
    judged = referee(demand, 5.0)
    if judged.proven:
        assert found.bound <= judged.length <= found.length
    if judged.proven and found.proven:
        assert found.length == judged.length
    assert judged.proven or found.proven


SIDES = (7, 11, 13, 17, 19, 23, 29, 31)  # none is a multiple of another: no piles are taken apart


def prime_list(number: int, width: int, more: int, most: int) -> Demand:
    """Two sizes or up to so many more, one to `most` pieces of each, all sides prime numbers of
    quarter inches.
    """
    draw = _numbers(104_729 + 59 * number)
    sizes: dict[tuple[Fraction, Fraction], Want] = {}
    wanted = 2 + _below(draw, more)
    while len(sizes) < wanted:
        across, along = (Fraction(SIDES[_below(draw, len(SIDES))], 4) for _ in range(2))
        letter = chr(ord("A") + len(sizes))
        want = Want(letter, across, along, 1 + _below(draw, most), turnable=_below(draw, 4) > 0)
        sizes.setdefault((across, along), want)
    return Demand(tuple(sizes.values()), (), Fraction(width), EIGHTH_INCH, Fraction(1))


NUMBERED = [*((number, 20, 4, 9) for number in range(20)), (26, 40, 3, 40), (8, 30, 6, 6)]


@pytest.mark.parametrize(("number", "width", "more", "most"), NUMBERED)
def test_the_shortest_plan_has_the_fewest_strips_that_the_referee_knows(
    number: int, width: int, more: int, most: int
) -> None:
    demand = prime_list(number, width, more, most)
    found, _ = plan(demand, 2 * STEPS_PER_SECOND)
    assert found.proven
    assert strip_count(found) == fewest_strips(demand, found.length, 5.0)
