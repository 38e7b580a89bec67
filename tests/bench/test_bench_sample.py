"""A sample of the benchmark; `python tests/bench/measure_planner.py` runs all of it.

Outside: an integer program of its own over every filling, solved by HiGHS through SciPy.
"""

import pytest
from lists import lists
from measure_planner import measured, table

from pieceproof.cutting.effort import STEPS_PER_SECOND

SAMPLE = [demand for demand in lists(24) if len(demand.wants) <= 3]


@pytest.mark.parametrize("number", range(len(SAMPLE)))
def test_short_lists_are_proven_and_equal_to_the_referee(number: int) -> None:
    result = measured(SAMPLE[number], STEPS_PER_SECOND)
    assert result.plan.proven
    assert result.plan.length <= min(result.per_size, result.first_fit, result.best_of_three)
    if result.referee_proven:
        assert result.plan.length == result.referee


def test_the_lists_are_those_that_were_measured() -> None:
    """A changed generator makes the handbook's table wrong."""
    counts = [sum(want.count for want in demand.wants) for demand in lists(3)]
    assert counts == [503, 1465, 206]


def test_the_table_has_a_column_for_each_group() -> None:
    lines = table([measured(SAMPLE[0], 1000)]).splitlines()
    assert {line.count("|") for line in lines} == {6}
