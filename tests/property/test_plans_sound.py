"""Random demands: plans are sound, no longer than those made at the table, not below the bound."""

from hypothesis import given, settings
from hypothesis import strategies as st
from quicktions import Fraction

from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.choose import merit
from pieceproof.cutting.demand import EIGHTH_INCH, MILLIMETRE, Demand, Long, Want, demand_problems
from pieceproof.cutting.greedy import greedy_plans
from pieceproof.cutting.grid import grid_of
from pieceproof.cutting.lay import strips_of
from pieceproof.cutting.planner import plan

F = Fraction
STEPS = 1_000_000


@st.composite
def demands(draw: st.DrawFn) -> Demand:
    """Up to eight sizes and two long strips; some may not be turned, some may not fit."""
    step = draw(st.sampled_from([EIGHTH_INCH, MILLIMETRE]))
    side = st.integers(8, 200).map(lambda steps: steps * step)
    longer = st.integers(100, 4000).map(lambda steps: steps * step)
    counts = st.integers(1, 300)
    letters = iter("ABCDEFGHIJ")
    wants = [
        Want(next(letters), *size)
        for size in draw(st.lists(st.tuples(side, side, counts, st.booleans()), max_size=8))
    ]
    longs = [
        Long(next(letters), width, length, count, join, 2 * step, way)
        for width, length, count, join, way in draw(
            st.lists(
                st.tuples(
                    side,
                    longer,
                    st.integers(1, 9),
                    st.sampled_from(["straight", "diagonal"]),
                    st.sampled_from(["crosswise", "lengthwise"]),
                ),
                max_size=2,
            )
        )
    ]
    width = draw(st.integers(60, 400)) * step + draw(st.sampled_from([F(0), step / 3]))
    return Demand(tuple(wants), tuple(longs), width, step, F(1))


@settings(max_examples=150, deadline=None)
@given(demands())
def test_the_plan_is_sound(demand: Demand) -> None:
    found, problems = plan(demand, STEPS)
    assert problems == demand_problems(demand)
    if problems:
        return
    assert plan_faults(demand, found) == ()
    assert 0 <= found.bound <= found.length
    assert found.gap >= 0
    assert found.proven == (found.gap == 0)


@settings(max_examples=100, deadline=None)
@given(demands())
def test_no_plan_made_at_the_table_is_better(demand: Demand) -> None:
    found, problems = plan(demand, STEPS)
    if problems:
        return
    grid = grid_of(demand)
    for rows in greedy_plans(grid):
        assert merit(found.strips, found.width) <= merit(strips_of(grid, rows), found.width)


@settings(max_examples=40, deadline=None)
@given(demands())
def test_more_effort_never_gives_a_longer_plan_or_a_lower_bound(demand: Demand) -> None:
    quick, problems = plan(demand, STEPS // 20)
    if not problems:
        found, _ = plan(demand, STEPS)
        assert quick.bound <= found.length <= quick.length
        assert found.bound <= quick.length
