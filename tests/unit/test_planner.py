"""What the planner prefers, what it refuses, and that it never takes long to say so."""

from time import perf_counter

import pytest
from quicktions import Fraction

from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import EIGHTH_INCH, Demand, Long, Want
from pieceproof.cutting.plan import cross_cuts, left_overs, strip_count
from pieceproof.cutting.planner import plan

F = Fraction


def demand(*wants: Want, longs: tuple[Long, ...] = (), width: Fraction = F(42)) -> Demand:
    return Demand(wants, longs, width, EIGHTH_INCH, F(1))


def want(letter: str, across: Fraction, along: Fraction, count: int, turnable: bool = True) -> Want:
    return Want(letter, F(across), F(along), count, turnable)


@pytest.mark.parametrize(("bad", "sentence"), [
    (want("A", F(43), F(50), 1), "A: 43 x 50 is larger than the usable width 42 both ways; "
     "it must be pieced"),
    (want("A", F(43), F(5), 1, False), "A: 43 x 5 is wider than the usable width 42 and may not "
     "be turned; allow turning, or piece it from joined strips"),
    (want("A", F(0), F(5), 1), "A: a side of 0; every side must be more than 0"),
    (want("A", F(5), F(-5), 1), "A: a side of -5; every side must be more than 0"),
    (want("A", F(5), F(5), 0), "A: 0 pieces; leave the piece out or ask for at least one"),
    (want("A", F(5), F(5), -3), "A: -3 pieces; leave the piece out or ask for at least one"),
    (want("A", F(5), F(5), 10_000_000), "10000012 pieces from one cloth; at most 5000000: "
     "plan a smaller batch"),
    (want("A", F(16, 3), F(5), 1), "A: 5 1/3 is not on the ruler's grid of 1/8"),
])  # fmt: skip
def test_a_bad_demand_is_a_problem_within_a_second(bad: Want, sentence: str) -> None:
    start = perf_counter()
    found, problems = plan(demand(bad, want("B", F(5), F(5), 12)))
    assert perf_counter() - start < 1
    assert (found.strips, problems) == ((), (sentence,))


def test_millions_of_pieces_are_planned() -> None:
    found, problems = plan(demand(want("A", F(1), F(9, 8), 2_000_000), want("B", F(3), F(4), 999)))
    assert problems == ()
    assert found.gap < F(1, 1000)


def test_a_hard_list_is_bounded_by_effort_and_says_how_far_it_may_be_off() -> None:
    """Sixty sizes, each a little different: no proof can be had, a plan and its gap can."""
    wants = [want(f"P{n}", F(8 + n * 7 % 50, 8), F(9 + n * 11 % 60, 8), 50 + n) for n in range(60)]
    found, problems = plan(demand(*wants), 1_000_000)
    assert problems == ()
    assert not found.proven
    assert 0 < found.gap < F(1, 4)


def test_without_effort_the_plan_is_the_best_made_at_the_table() -> None:
    found, _ = plan(demand(want("A", F(5), F(5), 30), want("B", F(3), F(4), 30)), 0)
    assert found.length > 0
    assert not found.proven
    assert found.bound > 0


def test_equal_strips_hold_equal_numbers() -> None:
    """24 pieces, 12 to a strip, are two full strips and not 9 and 15 of anything."""
    found, _ = plan(demand(want("A", F(7, 2), F(7, 2), 24), want("B", F(40), F(7, 2), 3)))
    assert found.proven
    assert [(strip.count, len(strip.segments)) for strip in found.strips] == [(2, 1), (3, 1)]


def test_turning_saves_a_strip() -> None:
    """13 1/2 x 7 1/2: fourteen across 107, and four more beside each other, lying."""
    wants = want("B", F(15, 2), F(27, 2), 18)
    found, _ = plan(demand(wants, width=F(107)))
    assert (found.length, found.proven) == (21, True)


def test_what_may_not_be_turned_is_not() -> None:
    found, _ = plan(demand(want("B", F(15, 2), F(27, 2), 18, False), width=F(107)))
    assert found.length == 27
    assert not any(c.turned for strip in found.strips for s in strip.segments for c in s.cuts)


def test_the_last_strip_keeps_what_is_left_in_one_piece() -> None:
    found, _ = plan(demand(want("A", F(7, 2), F(7, 2), 26)))
    assert strip_count(found) == 3
    assert [(left.across, left.count) for left in left_overs(found)] == [(F(35), 1)]
    assert cross_cuts(found) == 11 + 11 + 2  # 12 of 3 1/2 fill 42 exactly


def test_the_same_demand_is_planned_once() -> None:
    first = demand(want("A", F(7, 2), F(7, 2), 26))
    again = demand(want("A", F(7, 2), F(7, 2), 26))
    assert plan(first) is plan(again)


def test_long_pieces_are_not_piled_up_in_one_strip() -> None:
    """Eight pieces as long as the cloth is wide, beside others that ask for tall strips."""
    demand = Demand(
        (want("A", F(40), F(3), 8), want("B", F(10), F(12), 8)), (), F(40), EIGHTH_INCH, F(1)
    )
    found, _ = plan(demand)
    assert found.length == 8 * 3 + 2 * 12
    assert [(strip.height, strip.count) for strip in found.strips] == [(12, 2), (3, 8)]
    assert plan_faults(demand, found) == ()
