"""Measures the planner against other ways on made-up lists and prints a Markdown table.

    python tests/bench/measure_planner.py [lists] [seconds of effort]

One process on one core; times are processor time. Needs rectpack and scipy beside the package.
The lengths are the same on every machine, the times are this machine's.
"""

import sys
from collections.abc import Callable, Sequence
from statistics import mean, quantiles
from time import process_time
from typing import NamedTuple

from lists import GROUPS, lists
from quicktions import Fraction
from yardsticks import (
    best_of_three,
    first_fit_decreasing_height,
    packed,
    per_size,
    referee,
)

from pieceproof.cutting.check import plan_faults
from pieceproof.cutting.demand import Demand
from pieceproof.cutting.effort import STEPS_PER_SECOND
from pieceproof.cutting.plan import Plan, cross_cuts, strip_count
from pieceproof.cutting.planner import plan
from pieceproof.cutting.yardage import EIGHTH_YARD_IN, rounded_up

LISTS, EFFORT = 500, 5
REFEREE_SECONDS = 5.0


class Measured(NamedTuple):
    """One list: the plan, how long it took, and the other lengths; None where not tried."""

    demand: Demand
    plan: Plan
    seconds: float
    per_size: Fraction
    first_fit: Fraction
    best_of_three: Fraction
    rectpack: Fraction | None
    referee: Fraction | None
    referee_proven: bool


def measured(demand: Demand, steps: int) -> Measured:
    """Plan one list in every way; a wrong plan, or one that the referee beats, is an error."""
    start = process_time()
    found, problems = plan(demand, steps)
    seconds = process_time() - start
    assert (problems, plan_faults(demand, found)) == ((), ()), demand
    judged = referee(demand, REFEREE_SECONDS)
    if judged and judged.proven:
        assert found.bound <= judged.length <= found.length, (demand, judged)
    if judged and found.proven:
        assert found.length <= judged.length, (demand, judged)
    return Measured(
        demand,
        found,
        seconds,
        per_size(demand),
        first_fit_decreasing_height(demand),
        best_of_three(demand),
        packed(demand),
        judged.length if judged else None,
        judged is not None and judged.proven,
    )


def table(results: Sequence[Measured]) -> str:
    """The results by number of sizes."""
    names = [f"{low} to {high} sizes" for low, high in GROUPS] + ["all"]
    groups = [
        [one for one in results if low <= len(one.demand.wants) <= high] for low, high in GROUPS
    ]
    rows = [["lists of", *names], ["---", *["---:"] * len(names)]]
    for name, tell in _ROWS:
        rows.append([name, *(tell(group) if group else "-" for group in [*groups, results])])
    return "\n".join("| " + " | ".join(row) + " |" for row in rows)


def _proven_within(seconds: float) -> Callable[[Sequence[Measured]], str]:
    def tell(group: Sequence[Measured]) -> str:
        return _share([one.plan.proven and one.seconds <= seconds for one in group])

    return tell


def _share(true: Sequence[bool]) -> str:
    return f"{100 * sum(true) / len(true):.1f} %"


def _bought(plan: Plan, length: Fraction) -> Fraction:
    """That length with the squaring, in eighths of a yard."""
    return rounded_up(length + plan.squaring, EIGHTH_YARD_IN)


def _shortest_to_buy(group: Sequence[Measured]) -> str:
    plans = [one.plan for one in group]
    return _share([_bought(one, one.length) == _bought(one, one.bound) for one in plans])


def _milliseconds(percentile: int) -> Callable[[Sequence[Measured]], str]:
    def tell(group: Sequence[Measured]) -> str:
        times = [one.seconds for one in group]
        return f"{1000 * quantiles(times * 2, n=100)[percentile - 1]:.0f} ms"

    return tell


def _against(name: str) -> Callable[[Sequence[Measured]], str]:
    """How much longer the other way's plans are on average, where it gave any."""

    def tell(group: Sequence[Measured]) -> str:
        ratios = [
            float(getattr(one, name) / one.plan.length) for one in group if getattr(one, name)
        ]
        return f"{100 * (mean(ratios) - 1):+.2f} % ({len(ratios)})" if ratios else "-"

    return tell


def _gap(worst: Callable[[list[float]], float]) -> Callable[[Sequence[Measured]], str]:
    def tell(group: Sequence[Measured]) -> str:
        gaps = [float(one.plan.gap) for one in group if not one.plan.proven]
        return f"{100 * worst(gaps):.2f} %" if gaps else "-"

    return tell


def _equal(group: Sequence[Measured]) -> str:
    both = [one for one in group if one.referee_proven and one.plan.proven]
    equal = [one for one in both if one.referee == one.plan.length]
    return f"{len(equal)} of {len(both)}"


def _average(count: Callable[[Plan], int]) -> Callable[[Sequence[Measured]], str]:
    return lambda group: f"{mean(count(one.plan) for one in group):.1f}"


_ROWS: tuple[tuple[str, Callable[[Sequence[Measured]], str]], ...] = (
    ("how many lists", lambda group: str(len(group))),
    ("proven the shortest", lambda group: _share([one.plan.proven for one in group])),
    ("proven within 1 s", _proven_within(1)),
    ("proven within 5 s", _proven_within(5)),
    ("no shorter to the eighth of a yard", _shortest_to_buy),
    ("time, median", _milliseconds(50)),
    ("time, 95 of 100 below", _milliseconds(95)),
    ("gap where unproven, average", _gap(mean)),
    ("gap where unproven, worst", _gap(max)),
    ("longer: strips for each size", _against("per_size")),
    ("longer: first-fit by height", _against("first_fit")),
    ("longer: best of three orders", _against("best_of_three")),
    ("longer: rectpack (lists)", _against("rectpack")),
    ("proven by the referee", lambda group: _share([one.referee_proven for one in group])),
    ("equal to the referee, both proven", _equal),
    ("strips, average", _average(strip_count)),
    ("cross-cuts, average", _average(cross_cuts)),
)


if __name__ == "__main__":
    count, effort = [*map(int, sys.argv[1:]), *(LISTS, EFFORT)[len(sys.argv) - 1 :]]
    print(table([measured(demand, effort * STEPS_PER_SECOND) for demand in lists(count)]))
