"""plan(demand): the shortest cutting plan that can be found.

Goes in: a demand. Comes out: a plan that cuts every piece, and the problems that prevented one.
"""

from quicktions import Fraction

from pieceproof.cutting.demand import Demand, demand_problems
from pieceproof.cutting.greedy import best_greedy
from pieceproof.cutting.grid import Grid, Rows, grid_of
from pieceproof.cutting.lay import strips_of
from pieceproof.cutting.plan import Plan


def plan(demand: Demand) -> tuple[Plan, tuple[str, ...]]:
    """A plan for the demand, and why it is empty where the demand cannot be planned."""
    problems = demand_problems(demand)
    if problems:
        return empty_plan(demand), problems
    grid = grid_of(demand)
    return _plan_of(demand, grid, best_greedy(grid), _area_bound(grid)), ()


def empty_plan(demand: Demand) -> Plan:
    """The plan that cuts nothing."""
    nothing = Fraction(0)
    return Plan(demand.usable_width, demand.squaring, (), (), nothing, nothing, False)


def _plan_of(demand: Demand, grid: Grid, rows: Rows, bound: int) -> Plan:
    strips = strips_of(grid, rows)
    length = sum((strip.height * strip.count for strip in strips), Fraction(0))
    whole = sum(height * count for height, _, count in grid.whole)
    least = (bound + whole) * grid.step
    return Plan(
        grid.width * grid.step, demand.squaring, strips, grid.joined, length, least, length == least
    )


def _area_bound(grid: Grid) -> int:
    area = sum(kind.need * kind.across * kind.along for kind in grid.kinds)
    return -(-area // grid.width)
